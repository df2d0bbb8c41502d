package towerledger.finding;

/** Somebody else changed a finding since it was read. */
public class StaleFindingException extends RuntimeException {

  private static final long serialVersionUID = 1L;

  StaleFindingException(long id) {
    super(
        "finding %d was changed by somebody else since you read it; look at it again and repeat what still holds"
            .formatted(id));
  }
}
