package towerledger.site;

import java.util.List;

/** A system with the site it stands at, and its towers by code. */
public record SystemAtSite(CoolingSystem system, Site site, List<Tower> towers) {}
