package towerledger.api;

import java.util.Map;
import org.jspecify.annotations.Nullable;
import org.springframework.web.bind.annotation.PostMapping;
import org.springframework.web.bind.annotation.RequestBody;
import org.springframework.web.bind.annotation.RequestMapping;
import org.springframework.web.bind.annotation.RestController;
import towerledger.account.OpenTo;
import towerledger.account.Role;

/** Calculations that touch no facts: what a tower evaporates, what air holds. */
@RestController
@RequestMapping("/api/v1/estimates")
@OpenTo(
    value = {Role.OFFICE, Role.TECHNICIAN, Role.CUSTOMER},
    need = OpenTo.Need.LOOK)
class EstimateController {

  /**
   * What evaporates where.
   *
   * @param design the tower, by the columns of {@code towers.csv}; for measured states its kind
   *     only
   * @param conditions dry_bulb_f, wet_bulb_f, pressure_inhg; then heat_rejected_mmbtu_per_hour,
   *     water_flow_gpm, cold_water_setpoint_f and fan ({@code controlled} or {@code full}), or the
   *     measured hot_water_f, cold_water_f, water_flow_gpm and air_flow_cfm
   */
  record EvaporationRequest(
      @Nullable Map<String, @Nullable Object> design,
      @Nullable Map<String, @Nullable Object> conditions) {}

  @PostMapping("/evaporation")
  EvaporationEstimate.Answer evaporation(@RequestBody EvaporationRequest request) {
    return EvaporationEstimate.of(request.design(), request.conditions());
  }

  @PostMapping("/psychrometrics")
  PsychrometricEstimate.Answer psychrometrics(@RequestBody Map<String, @Nullable Object> request) {
    return PsychrometricEstimate.of(request);
  }
}
