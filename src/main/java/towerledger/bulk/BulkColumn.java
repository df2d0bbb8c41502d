package towerledger.bulk;

import org.jspecify.annotations.Nullable;

/**
 * A column of a bulk table.
 *
 * @param name its name in the database
 * @param type its type
 * @param role what the column is for
 * @param usual what an empty cell stands for in a row that is new or tells another value; null
 *     where it stands for nothing
 */
public record BulkColumn(String name, BulkType type, Role role, @Nullable Object usual) {

  /** What a column is for. */
  public enum Role {
    /** Says which row it is; never empty. */
    KEY,
    /** Says which row it is, and empty is a value like others. */
    NULLABLE_KEY,
    /** What is told; another value is a correction, empty is no news. */
    VALUE,
    /**
     * What is told in one of several ways: a row that tells it in one of them replaces what was
     * told in any.
     */
    ALTERNATIVE,
    /** Written along with the values, not compared: who and when, whose. */
    COMPANION,
    /** Written when the row is added, then left alone. */
    BIRTH
  }

  public static BulkColumn key(String name, BulkType type) {
    return new BulkColumn(name, type, Role.KEY, null);
  }

  public static BulkColumn nullableKey(String name, BulkType type) {
    return new BulkColumn(name, type, Role.NULLABLE_KEY, null);
  }

  public static BulkColumn value(String name, BulkType type) {
    return new BulkColumn(name, type, Role.VALUE, null);
  }

  /** A value that is {@code usual} unless it is told; to tell the rest again does not say so. */
  public static BulkColumn usually(String name, BulkType type, Object usual) {
    return new BulkColumn(name, type, Role.VALUE, usual);
  }

  public static BulkColumn alternative(String name, BulkType type) {
    return new BulkColumn(name, type, Role.ALTERNATIVE, null);
  }

  public static BulkColumn companion(String name, BulkType type) {
    return new BulkColumn(name, type, Role.COMPANION, null);
  }

  public static BulkColumn birth(String name, BulkType type) {
    return new BulkColumn(name, type, Role.BIRTH, null);
  }

  boolean isKey() {
    return role == Role.KEY || role == Role.NULLABLE_KEY;
  }

  boolean isValue() {
    return role == Role.VALUE || role == Role.ALTERNATIVE;
  }
}
