/** Forms to describe and edit customers, sites, systems, towers, meters, settings and rates. */
@NullMarked
package towerledger.office.describe;

import org.jspecify.annotations.NullMarked;
