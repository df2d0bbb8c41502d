package towerledger.office.retrofit;

import java.util.List;
import org.jspecify.annotations.Nullable;
import towerledger.page.FigureTable;
import towerledger.page.Plate;

/**
 * A retrofit's business case.
 *
 * @param measure what may be built in
 * @param fields what is asked
 * @param lead the answer in a sentence, or what to do
 * @param figures name and value of each figure; without rows where there is no answer
 * @param plate the cash flow as a chart with its table; null where there is no answer
 * @param pdf address of the same case for print; null where there is no answer
 * @param assumptions what the case rests on
 * @param cautions what to mind when working
 */
record RetrofitView(
    String system,
    String name,
    String whose,
    String measure,
    List<String> measures,
    List<Field> fields,
    String lead,
    FigureTable figures,
    @Nullable Plate plate,
    @Nullable String pdf,
    List<String> assumptions,
    List<String> cautions) {

  /** A field with what was typed and what is wrong with it. */
  record Field(String name, String unit, String typed, @Nullable String wrong) {}
}
