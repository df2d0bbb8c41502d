package towerledger.site;

import org.jspecify.annotations.Nullable;

/** A tower with its system and site; no tower where the system has none yet. */
record TowerAtSite(CoolingSystem system, Site site, @Nullable Tower tower) {}
