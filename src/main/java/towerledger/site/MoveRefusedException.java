package towerledger.site;

/** A row would move a thing to another owner; moving is an explicit act of the office. */
public class MoveRefusedException extends RuntimeException {

  MoveRefusedException(String kind, String code, String ownerKind) {
    super(
        "%s '%s' belongs to another %s; a row may not move it. Use another code, or move it in the office"
            .formatted(kind, code, ownerKind));
  }
}
