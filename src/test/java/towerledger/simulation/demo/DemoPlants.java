package towerledger.simulation.demo;

import java.util.List;
import java.util.Map;
import towerledger.simulation.HourGrid;

/** The fourteen systems: what stands there, how it is run, how it is watched. */
final class DemoPlants {

  private final DemoHours hours;

  /**
   * Plants on the hours of their sites.
   *
   * @param grids hours by site code
   * @param sites sites by code
   */
  DemoPlants(Map<String, HourGrid> grids, Map<String, DemoSite> sites) {
    this.hours = new DemoHours(grids, sites);
  }

  /** In the order of the committed bundle. */
  List<DemoSystem> all() {
    var hospital = new HospitalPlants(hours);
    var hotel = new HotelPlants(hours);
    var cannery = new CanneryPlants(hours);
    var school = new SchoolPlants(hours);
    var research = new ResearchPlants(hours);
    return List.of(
        hospital.medicalMain(),
        hospital.medicalLaboratory(),
        research.desertHall(),
        hotel.harborHouse(),
        hotel.pierPavilion(),
        cannery.processCooler(),
        cannery.refrigeration(),
        cannery.compressedAir(),
        school.highSchool(),
        school.middleSchool(),
        research.laboratories(),
        research.annex(),
        research.hallA(),
        research.hallB());
  }
}
