package towerledger.meter;

import java.time.Instant;
import java.util.ArrayList;
import java.util.Collection;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import towerledger.site.Meter;
import towerledger.site.MeterRole;

/**
 * Which of some meters count. Water that a meter measures again below another meter of its role
 * counts once, by the meter above; an other-use meter counts, to be subtracted, where the water it
 * measures has passed a makeup meter. A meter that names no parent hangs where its role says.
 *
 * @param counted meters that count, each for its own role
 * @param remarks by the code of a meter, why its parent is not there or cannot be
 */
public record MeterNetwork(List<Meter> counted, Map<String, Remark> remarks) {

  public MeterNetwork {
    counted = List.copyOf(counted);
    remarks = Map.copyOf(remarks);
  }

  /**
   * The network of some meters.
   *
   * @param meters meters of one system, or the service meters of a site
   * @param above further meters that may be parents: the site's service meters
   */
  public static MeterNetwork of(Collection<Meter> meters, Collection<Meter> above) {
    Map<String, Meter> byCode = new LinkedHashMap<>();
    above.forEach(meter -> byCode.put(meter.code(), meter));
    meters.forEach(meter -> byCode.put(meter.code(), meter));
    var counted = new ArrayList<Meter>();
    var remarks = new HashMap<String, Remark>();
    for (Meter meter : meters) {
      List<MeterRole> way = rolesAbove(meter, byCode, remarks);
      if (counts(meter.details().role(), way)) {
        counted.add(meter);
      }
    }
    return new MeterNetwork(counted, remarks);
  }

  /** The meters of a role that count. */
  public List<Meter> counted(MeterRole role) {
    return counted.stream().filter(meter -> meter.details().role() == role).toList();
  }

  private static boolean counts(MeterRole role, List<MeterRole> above) {
    if (role != MeterRole.OTHER_USE) {
      return !above.contains(role);
    }
    Optional<MeterRole> nearest =
        above.stream()
            .filter(other -> other == MeterRole.MAKEUP || other == MeterRole.OTHER_USE)
            .findFirst();
    // Below a service meter and no makeup meter, the water never passed the makeup.
    return nearest.map(other -> other == MeterRole.MAKEUP).orElse(above.isEmpty());
  }

  /** Roles of the meters above one, nearest first, as far as the parents are known. */
  private static List<MeterRole> rolesAbove(
      Meter meter, Map<String, Meter> byCode, Map<String, Remark> remarks) {
    var roles = new ArrayList<MeterRole>();
    Meter at = meter;
    String parent = at.details().parentMeter();
    while (parent != null) {
      Meter next = byCode.get(parent);
      if (next == null) {
        remarks.put(
            meter.code(),
            unknown(
                meter,
                "meter %s names %s as its parent, which is not a meter of this system or site; correct parent_meter"
                    .formatted(at.code(), parent)));
        break;
      }
      if (roles.size() >= byCode.size()) {
        remarks.put(
            meter.code(),
            unknown(
                meter,
                "meter %s is its own parent by way of others; correct parent_meter"
                    .formatted(meter.code())));
        return List.of();
      }
      roles.add(next.details().role());
      at = next;
      parent = at.details().parentMeter();
    }
    return roles;
  }

  private static Remark unknown(Meter meter, String words) {
    Instant since = meter.details().installedAt();
    return new Remark(Remark.Kind.PARENT_UNKNOWN, since == null ? Instant.EPOCH : since, words);
  }
}
