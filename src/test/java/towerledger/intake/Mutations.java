package towerledger.intake;

import java.nio.charset.StandardCharsets;
import java.util.List;
import java.util.Random;

/** Spoils good rows in the ways in which people, loggers and spreadsheets spoil them. */
final class Mutations {

  /** Stands for a letter in another encoding. */
  private static final char NOT_UTF_8 = '\uE000';

  private static final List<String> CELLS =
      List.of(
          "NaN",
          "Infinity",
          "-Infinity",
          "1e999",
          "-1e308",
          "1e-320",
          "0x1p3",
          "1d",
          "-1",
          "-0",
          "99999999999999999999999",
          "1,5",
          "1.2.3",
          "--5",
          "1899-12-30",
          "2999-01-01T00:00Z",
          "2025-02-30",
          "2025-02-30T10:00Z",
          "2025-11-02T01:30",
          "2025-03-09T02:30",
          "2025-13-45",
          "7/4/2025 10:00",
          "=1+1",
          "=cmd|' /C calc'!A0",
          "+1+1",
          "@SUM(A1:A9)",
          "-2+3",
          "'quoted",
          "NO-SUCH-THING",
          "../../etc/passwd",
          "<script>alert(1)</script>",
          "'; DROP TABLE site_site; --",
          "${jndi:ldap://x}",
          "\u0000",
          "a\u0000b",
          "\u0001\u0002",
          "\u202Etxt",
          "\uFEFF",
          "\uD83D\uDCA7",
          "caf" + NOT_UTF_8,
          "null",
          "true",
          " ",
          "");

  private final Random random;

  Mutations(long seed) {
    this.random = new Random(seed);
  }

  /** The text as it lies in a file, some letters of it in another encoding than the rest. */
  static byte[] bytes(String text) {
    byte[] bytes = text.getBytes(StandardCharsets.UTF_8);
    byte[] stand = String.valueOf(NOT_UTF_8).getBytes(StandardCharsets.UTF_8);
    for (int i = 0; i + stand.length <= bytes.length; i++) {
      if (bytes[i] == stand[0] && bytes[i + 1] == stand[1] && bytes[i + 2] == stand[2]) {
        bytes[i] = (byte) 0xE9; // é in Latin-1, the begin of nothing in UTF-8
        bytes[i + 1] = ' ';
        bytes[i + 2] = 'a';
      }
    }
    return bytes;
  }

  /** A row of as many records as the given one: one. */
  String spoil(String row) {
    String[] cells = row.split(",", -1);
    int at = random.nextInt(cells.length);
    switch (random.nextInt(12)) {
      case 0 -> {
        int other = random.nextInt(cells.length);
        String swapped = cells[at];
        cells[at] = cells[other];
        cells[other] = swapped;
      }
      case 1 -> cells[at] = "";
      case 2 -> cells[at] = cells[at] + cells[at];
      case 3 -> cells[at] = "-" + cells[at];
      case 4 -> cells[at] = cells[at].replace('-', '/');
      case 5 -> cells[at] = cells[at] + (char) (1 + random.nextInt(8));
      case 6 -> {
        return row + ",extra";
      }
      case 7 -> {
        return row.substring(0, random.nextInt(row.length()) + 1);
      }
      case 8 -> {
        char[] text = row.toCharArray();
        text[random.nextInt(text.length)] = (char) (33 + random.nextInt(90));
        return new String(text).replace('"', 'q');
      }
      default -> cells[at] = CELLS.get(random.nextInt(CELLS.size()));
    }
    return String.join(",", cells).replace('"', 'q');
  }
}
