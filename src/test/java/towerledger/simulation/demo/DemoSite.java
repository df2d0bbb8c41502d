package towerledger.simulation.demo;

import java.time.ZoneId;
import org.jspecify.annotations.Nullable;
import towerledger.simulation.Climate;

/**
 * A customer's site.
 *
 * @param otherGalPerDay water that the site uses besides its towers
 */
record DemoSite(
    String code,
    String customer,
    String name,
    ZoneId zone,
    double latitude,
    double longitude,
    int elevationFt,
    String station,
    Climate climate,
    String waterSchedule,
    @Nullable String sewerSchedule,
    int serviceMeterIn,
    double otherGalPerDay) {}
