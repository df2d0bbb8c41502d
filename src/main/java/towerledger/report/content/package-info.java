/** Writes a report from the ledger and renders it as mail, plain text, PDF and CSV. */
@NullMarked
package towerledger.report.content;

import org.jspecify.annotations.NullMarked;
