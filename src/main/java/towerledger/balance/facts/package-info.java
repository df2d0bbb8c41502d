/**
 * What is known about one system over a span of time, as plain values in SI units: the whole input
 * of a reconciliation. Nothing here computes.
 */
@NullMarked
@NamedInterface("facts")
package towerledger.balance.facts;

import org.jspecify.annotations.NullMarked;
import org.springframework.modulith.NamedInterface;
