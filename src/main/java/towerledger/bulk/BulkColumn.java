package towerledger.bulk;

/**
 * A column of a bulk table.
 *
 * @param name its name in the database
 * @param type its type
 * @param role what the column is for
 */
public record BulkColumn(String name, BulkType type, Role role) {

  /** What a column is for. */
  public enum Role {
    /** Says which row it is; never empty. */
    KEY,
    /** Says which row it is, and empty is a value like others. */
    NULLABLE_KEY,
    /** What is told; another value is a correction, empty is no news. */
    VALUE,
    /** Written along with the values, not compared: who and when, whose. */
    COMPANION,
    /** Written when the row is added, then left alone. */
    BIRTH
  }

  public static BulkColumn key(String name, BulkType type) {
    return new BulkColumn(name, type, Role.KEY);
  }

  public static BulkColumn nullableKey(String name, BulkType type) {
    return new BulkColumn(name, type, Role.NULLABLE_KEY);
  }

  public static BulkColumn value(String name, BulkType type) {
    return new BulkColumn(name, type, Role.VALUE);
  }

  public static BulkColumn companion(String name, BulkType type) {
    return new BulkColumn(name, type, Role.COMPANION);
  }

  public static BulkColumn birth(String name, BulkType type) {
    return new BulkColumn(name, type, Role.BIRTH);
  }

  boolean isKey() {
    return role == Role.KEY || role == Role.NULLABLE_KEY;
  }
}
