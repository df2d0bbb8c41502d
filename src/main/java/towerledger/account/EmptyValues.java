package towerledger.account;

import java.util.function.BinaryOperator;

/** What an empty value says of a thing that is there already. */
public enum EmptyValues {
  /** It was not told, so what is known stays: rows of files, which often tell a part. */
  KEEP,
  /** It is not known any more: a form, on which somebody emptied it. */
  CLEAR;

  /**
   * The thing after it was told anew.
   *
   * @param known as it was
   * @param told as it was told
   * @param keeping puts what was told over what is known and keeps what was not told
   */
  public <T> T over(T known, T told, BinaryOperator<T> keeping) {
    return this == CLEAR ? told : keeping.apply(known, told);
  }
}
