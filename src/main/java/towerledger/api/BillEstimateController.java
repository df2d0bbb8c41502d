package towerledger.api;

import com.fasterxml.jackson.annotation.JsonProperty;
import java.math.BigDecimal;
import java.math.RoundingMode;
import java.time.LocalDate;
import java.time.temporal.ChronoUnit;
import java.util.ArrayList;
import java.util.Currency;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Objects;
import java.util.Set;
import java.util.function.Supplier;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;
import org.springframework.web.bind.annotation.PostMapping;
import org.springframework.web.bind.annotation.RequestBody;
import org.springframework.web.bind.annotation.RestController;
import tools.jackson.databind.JsonNode;
import towerledger.account.OpenTo;
import towerledger.account.Role;
import towerledger.account.Viewer;
import towerledger.quantity.Volume;
import towerledger.quantity.VolumeUnit;
import towerledger.site.SiteAccess;
import towerledger.tariff.Bill;
import towerledger.tariff.BillLine;
import towerledger.tariff.Billing;
import towerledger.tariff.MeterSize;
import towerledger.tariff.RateSchedule;
import towerledger.tariff.Schedules;
import towerledger.tariff.SiteUse;
import towerledger.tariff.TariffException;
import towerledger.tariff.TowerWater;
import towerledger.tariff.Usage;
import towerledger.tariff.owrs.OwrsClass;
import towerledger.tariff.owrs.OwrsDocument;

/** Bills of any use under stored schedules, or under a rate document sent along. */
@RestController
class BillEstimateController {

  private static final int LONGEST_PERIOD_DAYS = 1100;
  private static final BigDecimal MOST_UNITS = new BigDecimal("1000000000000");
  private static final int SHOWN_DECIMALS = 6;

  private final Schedules schedules;
  private final SiteAccess access;

  BillEstimateController(Schedules schedules, SiteAccess access) {
    this.schedules = schedules;
    this.access = access;
  }

  /**
   * A volume of water.
   *
   * @param amount number of units
   * @param unit code of the unit
   */
  record Amount(@Nullable BigDecimal amount, @Nullable String unit) {}

  /** Water of a system whose evaporation credit is on the sewer bill. */
  record Tower(
      @Nullable String system,
      @Nullable Amount makeup,
      @Nullable Amount blowdown,
      @JsonProperty("credit_meter") @Nullable Amount creditMeter,
      @Nullable Amount evaporation,
      @JsonProperty("evaporation_high") @Nullable Amount evaporationHigh) {}

  /**
   * What to bill: schedules, period and usage, or an OWRS document with class, inputs and usage.
   *
   * @param schedules codes of stored schedules on one bill
   * @param from first day billed
   * @param to first day no longer billed
   * @param usage water used: {@code {"amount", "unit"}}; for a document also a plain number of its
   *     bill unit
   * @param meterSizeIn size of the service meter in inches
   * @param returnMeter volume of the return meter, where sewer is billed by it
   * @param winterAverage water of an average winter bill, where sewer is capped by it
   * @param towers systems with an evaporation credit
   * @param currency ISO code; USD if absent
   * @param owrs a rate document in the Open Water Rate Specification
   * @param customerClass its customer class; COMMERCIAL if absent
   * @param inputs what the document chooses by or counts with
   */
  record BillRequest(
      @Nullable List<String> schedules,
      @Nullable LocalDate from,
      @Nullable LocalDate to,
      @Nullable JsonNode usage,
      @JsonProperty("meter_size_in") @Nullable JsonNode meterSizeIn,
      @JsonProperty("return_meter") @Nullable Amount returnMeter,
      @JsonProperty("winter_average") @Nullable Amount winterAverage,
      @Nullable List<Tower> towers,
      @Nullable String currency,
      @Nullable String owrs,
      @JsonProperty("customer_class") @Nullable String customerClass,
      @Nullable Map<String, JsonNode> inputs) {}

  /** One line of the bill, amounts before rounding. */
  record Line(
      String service,
      String kind,
      String name,
      @Nullable BigDecimal quantity,
      String unit,
      @Nullable BigDecimal rate,
      BigDecimal amount,
      String working) {}

  /**
   * The bill.
   *
   * @param lines lines in the order they are worked out
   * @param total sum of the lines, rounded once
   * @param currency ISO code
   * @param notes what the reader has to know besides
   */
  record BillAnswer(List<Line> lines, BigDecimal total, String currency, List<String> notes) {}

  @PostMapping("/api/v1/estimates/bill")
  @OpenTo(
      value = {Role.OFFICE, Role.TECHNICIAN, Role.CUSTOMER},
      need = OpenTo.Need.LOOK)
  BillAnswer estimate(@RequestBody BillRequest request, Viewer viewer) {
    return refusing(
        () -> answer(request.owrs() == null ? stored(request, viewer) : document(request)));
  }

  private Bill stored(BillRequest request, Viewer viewer) {
    if (request.schedules() == null || request.schedules().isEmpty()) {
      throw refused("give 'schedules' (codes of stored schedules) or 'owrs' (a rate document)");
    }
    LocalDate from = required("from", request.from());
    LocalDate to = required("to", request.to());
    if (ChronoUnit.DAYS.between(from, to) > LONGEST_PERIOD_DAYS) {
      throw refused(
          "the period from %s to %s is longer than %d days; ask for a bill at a time"
              .formatted(from, to, LONGEST_PERIOD_DAYS));
    }
    JsonNode usage = required("usage", request.usage());
    if (!usage.isObject()) {
      throw refused("'usage' is an amount and a unit: {\"amount\": 120, \"unit\": \"kgal\"}");
    }
    SiteUse use =
        SiteUse.of(
                from, to, usage("usage", new Amount(number(usage, "amount"), text(usage, "unit"))))
            .withMeterSize(meterSize(request.meterSizeIn()))
            .withReturnMeter(optionalUsage("return_meter", request.returnMeter()))
            .withWinterAverage(optionalUsage("winter_average", request.winterAverage()))
            .withTowers(towers(request.towers()));
    List<RateSchedule> found = new ArrayList<>();
    for (String code : request.schedules()) {
      found.add(schedule(code, viewer));
    }
    return Billing.bill(found, use, currency(request));
  }

  /** Rates are shown to whoever is billed by them; the office sees all. */
  private RateSchedule schedule(String code, Viewer viewer) {
    if (!viewer.isOffice()) {
      Set<String> own =
          access.listSites(viewer).stream()
              .flatMap(
                  site -> Stream.of(site.details().waterSchedule(), site.details().sewerSchedule()))
              .filter(Objects::nonNull)
              .collect(Collectors.toSet());
      if (!own.contains(code)) {
        throw new NotThereException("schedule", code);
      }
    }
    return schedules.find(code).orElseThrow(() -> new NotThereException("schedule", code));
  }

  private static Bill document(BillRequest request) {
    OwrsDocument document = OwrsDocument.read(required("owrs", request.owrs()));
    OwrsClass rates =
        document.getCustomerClass(
            request.customerClass() == null ? "COMMERCIAL" : request.customerClass());
    JsonNode usage = required("usage", request.usage());
    BigDecimal units =
        usage.isObject()
            ? usage("usage", new Amount(number(usage, "amount"), text(usage, "unit")))
                .in(
                    document
                        .findBillUnit()
                        .orElseThrow(
                            () ->
                                refused(
                                    "the document's bill_unit is not known; give 'usage' as a plain"
                                        + " number of it")))
            : limited("usage", decimal("usage", usage));
    Map<String, String> inputs = new LinkedHashMap<>();
    if (request.inputs() != null) {
      request
          .inputs()
          .forEach(
              (name, value) -> {
                if (!value.isNull()) {
                  inputs.put(name, value.asString());
                }
              });
    }
    Bill bill = rates.bill(inputs, units, currency(request));
    List<String> notes = new ArrayList<>(bill.notes());
    notes.addAll(document.notes());
    return new Bill(bill.lines(), bill.total(), notes);
  }

  private static BillAnswer answer(Bill bill) {
    return new BillAnswer(
        bill.lines().stream().map(BillEstimateController::line).toList(),
        bill.total().amount(),
        bill.total().currency().getCurrencyCode(),
        bill.notes());
  }

  private static Line line(BillLine line) {
    return new Line(
        line.service().code(),
        line.kind().name().toLowerCase(Locale.ROOT),
        line.name(),
        line.quantity() == null ? null : shown(line.quantity()),
        line.unit(),
        line.rate() == null ? null : shown(line.rate()),
        shown(line.amount().amount()),
        line.working());
  }

  private static BigDecimal shown(BigDecimal value) {
    return value.setScale(
        Math.min(Math.max(value.scale(), 0), SHOWN_DECIMALS), RoundingMode.HALF_UP);
  }

  private static List<TowerWater> towers(@Nullable List<Tower> towers) {
    List<TowerWater> result = new ArrayList<>();
    for (Tower tower : towers == null ? List.<Tower>of() : towers) {
      String system = required("towers.system", tower.system());
      result.add(
          new TowerWater(
              system,
              volume("towers.makeup", tower.makeup()),
              volume("towers.blowdown", tower.blowdown()),
              volume("towers.credit_meter", tower.creditMeter()),
              volume("towers.evaporation", tower.evaporation()),
              volume("towers.evaporation_high", tower.evaporationHigh())));
    }
    return result;
  }

  private static @Nullable Volume volume(String field, @Nullable Amount amount) {
    return amount == null ? null : usage(field, amount).volume();
  }

  private static @Nullable Usage optionalUsage(String field, @Nullable Amount amount) {
    return amount == null ? null : usage(field, amount);
  }

  private static Usage usage(String field, Amount amount) {
    return new Usage(
        limited(field, required(field + ".amount", amount.amount())),
        VolumeUnit.ofCode(required(field + ".unit", amount.unit())));
  }

  private static BigDecimal limited(String field, BigDecimal units) {
    if (units.compareTo(MOST_UNITS) > 0 || units.scale() > 30) {
      throw refused("'%s' is no amount of water; give at most 10^12 units".formatted(field));
    }
    return units;
  }

  private static @Nullable MeterSize meterSize(@Nullable JsonNode size) {
    return size == null || size.isNull() ? null : MeterSize.parseInches(size.asString());
  }

  private static @Nullable BigDecimal number(JsonNode object, String field) {
    JsonNode node = object.get(field);
    return node == null || node.isNull() ? null : decimal("usage." + field, node);
  }

  private static @Nullable String text(JsonNode object, String field) {
    JsonNode node = object.get(field);
    return node == null || node.isNull() ? null : node.asString();
  }

  private static BigDecimal decimal(String field, JsonNode node) {
    String text = node.isValueNode() ? node.asString() : "";
    if (!text.matches("-?\\d{1,20}(\\.\\d{1,20})?([eE][-+]?\\d{1,2})?")) {
      throw refused("'%s' is not a number; write for instance 412.5".formatted(field));
    }
    return new BigDecimal(text);
  }

  private static Currency currency(BillRequest request) {
    return Currency.getInstance(request.currency() == null ? "USD" : request.currency());
  }

  private static <T> T required(String field, @Nullable T value) {
    if (value == null) {
      throw refused("'%s' is missing".formatted(field));
    }
    return value;
  }

  private static TariffException refused(String message) {
    return new TariffException("request", message);
  }

  /** What a value type refuses is the sender's to mend. */
  private static <T> T refusing(Supplier<T> work) {
    try {
      return work.get();
    } catch (IllegalArgumentException e) {
      throw new TariffException("request", String.valueOf(e.getMessage()));
    }
  }
}
