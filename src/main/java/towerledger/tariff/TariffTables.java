package towerledger.tariff;

import static towerledger.bulk.BulkColumn.birth;
import static towerledger.bulk.BulkColumn.companion;
import static towerledger.bulk.BulkColumn.key;
import static towerledger.bulk.BulkColumn.nullableKey;
import static towerledger.bulk.BulkColumn.value;

import java.util.List;
import towerledger.bulk.BulkTable;
import towerledger.bulk.BulkType;
import towerledger.bulk.Corrections;

/** The tables that rate schedules, their charges and blocks, and utility bills are loaded into. */
public final class TariffTables {

  public static final BulkTable SCHEDULE =
      BulkTable.of(
          "tariff_schedule",
          Corrections.NOT_KEPT,
          key("schedule", BulkType.TEXT),
          value("service", BulkType.TEXT),
          key("effective_from", BulkType.DATE),
          value("billing_unit", BulkType.TEXT),
          value("name", BulkType.TEXT),
          value("months_per_bill", BulkType.INTEGER),
          value("minimum_charge", BulkType.DECIMAL),
          value("surcharge_percent", BulkType.DECIMAL),
          value("tax_percent", BulkType.DECIMAL),
          value("sewer_basis", BulkType.TEXT),
          value("sewer_percent", BulkType.DECIMAL),
          value("winter_months", BulkType.TEXT),
          value("evaporation_credit", BulkType.TEXT),
          value("credit_percent", BulkType.DECIMAL),
          value("credit_minimum_units", BulkType.DECIMAL),
          value("credit_cap_percent", BulkType.DECIMAL),
          value("credit_deadline", BulkType.TEXT),
          birth("created_at", BulkType.INSTANT));

  public static final BulkTable CHARGE =
      new BulkTable(
          "tariff_charge",
          false,
          Corrections.NOT_KEPT,
          List.of(
              key("schedule", BulkType.TEXT),
              key("effective_from", BulkType.DATE),
              key("charge", BulkType.TEXT),
              nullableKey("meter_size_mm", BulkType.DOUBLE),
              value("amount", BulkType.DECIMAL)));

  public static final BulkTable BLOCK =
      new BulkTable(
          "tariff_block",
          false,
          Corrections.NOT_KEPT,
          List.of(
              key("schedule", BulkType.TEXT),
              key("effective_from", BulkType.DATE),
              nullableKey("first_month", BulkType.INTEGER),
              nullableKey("last_month", BulkType.INTEGER),
              nullableKey("meter_size_mm", BulkType.DOUBLE),
              key("from_units", BulkType.DECIMAL),
              value("rate", BulkType.DECIMAL)));

  public static final BulkTable UTILITY_BILL =
      BulkTable.of(
          "tariff_utility_bill",
          Corrections.NOT_KEPT,
          companion("customer_id", BulkType.BIGINT),
          key("site_id", BulkType.BIGINT),
          key("service", BulkType.TEXT),
          key("from_date", BulkType.DATE),
          value("to_date", BulkType.DATE),
          value("units", BulkType.DECIMAL),
          value("amount", BulkType.DECIMAL),
          value("credit_amount", BulkType.DECIMAL),
          value("estimated", BulkType.BOOLEAN));

  private TariffTables() {}
}
