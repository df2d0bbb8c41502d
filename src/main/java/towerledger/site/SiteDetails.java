package towerledger.site;

import jakarta.persistence.Embeddable;
import java.time.ZoneId;
import org.jspecify.annotations.Nullable;

/**
 * What is known of a site. Null means not known.
 *
 * @param name what people call it
 * @param timeZone IANA zone of its calendar months
 * @param latitudeDeg degrees north, −90 to 90
 * @param longitudeDeg degrees east, −180 to 180
 * @param elevationM metres above sea level
 * @param station code of the weather station it takes its hours from
 * @param waterSchedule code of the water rate schedule it is billed on
 * @param sewerSchedule code of the sewer rate schedule it is billed on
 * @param serviceMeterSizeMm nominal size of the utility's service meter
 */
@Embeddable
public record SiteDetails(
    String name,
    String timeZone,
    @Nullable Double latitudeDeg,
    @Nullable Double longitudeDeg,
    @Nullable Double elevationM,
    @Nullable String station,
    @Nullable String waterSchedule,
    @Nullable String sewerSchedule,
    @Nullable Double serviceMeterSizeMm) {

  /** The zone of the site's calendar. */
  public ZoneId zone() {
    return ZoneId.of(timeZone);
  }

  /** This with every known value of a newer row put over it; not known never wipes out known. */
  public SiteDetails updatedBy(SiteDetails newer) {
    return new SiteDetails(
        newer.name,
        newer.timeZone,
        Known.or(newer.latitudeDeg, latitudeDeg),
        Known.or(newer.longitudeDeg, longitudeDeg),
        Known.or(newer.elevationM, elevationM),
        Known.or(newer.station, station),
        Known.or(newer.waterSchedule, waterSchedule),
        Known.or(newer.sewerSchedule, sewerSchedule),
        Known.or(newer.serviceMeterSizeMm, serviceMeterSizeMm));
  }
}
