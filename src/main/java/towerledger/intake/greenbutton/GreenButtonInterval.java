package towerledger.intake.greenbutton;

import java.time.Instant;
import java.util.OptionalInt;

/**
 * Water over one interval of a feed.
 *
 * @param usagePoint address of the usage point within the feed, where it has one
 * @param meterReading address of the meter reading within the feed
 * @param start begin of the interval
 * @param minutes length, 1 to 46,080 (32 days)
 * @param litres volume, not negative
 * @param quality ESPI QualityOfReading as sent: 0 valid, 7–9 edited or estimated, 14 raw …
 */
public record GreenButtonInterval(
    String usagePoint,
    String meterReading,
    Instant start,
    int minutes,
    double litres,
    OptionalInt quality) {}
