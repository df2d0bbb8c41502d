package towerledger.api;

import static org.hamcrest.Matchers.closeTo;
import static org.hamcrest.Matchers.containsString;
import static org.springframework.test.web.servlet.request.MockMvcRequestBuilders.post;
import static org.springframework.test.web.servlet.result.MockMvcResultMatchers.jsonPath;
import static org.springframework.test.web.servlet.result.MockMvcResultMatchers.status;

import org.junit.jupiter.api.Test;
import org.springframework.beans.factory.annotation.Autowired;
import org.springframework.http.MediaType;
import org.springframework.test.web.servlet.MockMvc;
import org.springframework.test.web.servlet.request.MockHttpServletRequestBuilder;
import towerledger.ApplicationOnH2;
import towerledger.SignedIn;

/** The estimates over REST, as the interchange contract names their fields. */
@ApplicationOnH2
class EstimateIT {

  @Autowired MockMvc mvc;
  @Autowired SignedIn signedIn;

  @Test
  void answersEvaporation() throws Exception {
    mvc.perform(
            estimate(
                "evaporation",
                """
                {"design": {"nominal_tons": 100, "design_water_flow_gpm": 300,
                  "design_hot_water_f": 95, "design_cold_water_f": 85, "design_wet_bulb_f": 78},
                 "conditions": {"dry_bulb_f": 85, "wet_bulb_f": 70, "pressure_inhg": 29.921,
                  "heat_rejected_mmbtu_per_hour": 1.2, "water_flow_gpm": 300,
                  "cold_water_setpoint_f": 80, "fan": "controlled"}}"""))
        .andExpect(status().isOk())
        .andExpect(jsonPath("$.cold_water_f", closeTo(80, 1e-6)))
        .andExpect(jsonPath("$.evaporation_gal_per_hour").isNumber())
        .andExpect(jsonPath("$.hot_water_f").isNumber())
        .andExpect(jsonPath("$.leaving_air_dry_bulb_f").isNumber())
        .andExpect(jsonPath("$.leaving_humidity_ratio").isNumber())
        .andExpect(jsonPath("$.latent_share").isNumber())
        .andExpect(jsonPath("$.method", containsString("Poppe")));
  }

  @Test
  void answersMoistAir() throws Exception {
    mvc.perform(
            estimate(
                "psychrometrics",
                """
                {"dry_bulb_f": 100, "wet_bulb_f": 65, "pressure_inhg": 29.921}"""))
        .andExpect(status().isOk())
        .andExpect(jsonPath("$.humidity_ratio", closeTo(0.00523, 1e-4), Double.class))
        .andExpect(jsonPath("$.dew_point_f").isNumber());
  }

  @Test
  void refusesTheImpossibleWithAProblemDetail() throws Exception {
    mvc.perform(estimate("psychrometrics", "{\"dry_bulb_f\": 60, \"wet_bulb_f\": 70}"))
        .andExpect(status().is(422))
        .andExpect(jsonPath("$.detail", containsString("must not be above the dry bulb")));
    mvc.perform(estimate("psychrometrics", "{\"dry_bulb_f\": 60, \"wet_blub_f\": 50}"))
        .andExpect(status().isBadRequest())
        .andExpect(jsonPath("$.detail", containsString("wet_blub_f")));
  }

  private MockHttpServletRequestBuilder estimate(String path, String body) {
    return post("/api/v1/estimates/" + path)
        .with(signedIn.api(signedIn.office()))
        .contentType(MediaType.APPLICATION_JSON)
        .content(body);
  }
}
