package dev.doublet.layout;

import java.io.BufferedReader;
import java.io.IOException;
import java.io.InputStream;
import java.io.InputStreamReader;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.EnumMap;
import java.util.HashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.OptionalInt;
import java.util.stream.IntStream;
import java.util.stream.Stream;

/**
 * A sort of board that drives signals: its memory, and what the reader in C costs on it, as
 * measured. The figures are those of {@code boards.txt}, which says how they were come by.
 *
 * @param word what a user calls it
 * @param bits of its processor
 * @param flashOfAll bytes of program memory it has
 * @param ramOfAll bytes of memory it has
 * @param flash bytes of program memory left for the table
 * @param ram bytes of memory left for the reader and the LED buffers
 * @param megahertz its clock
 * @param begin cycles to begin a frame of a chain
 * @param dark cycles for an LED that belongs to no unit
 * @param steady cycles for the LEDs of a unit where lamps switch at once
 * @param fading cycles for the LEDs of a unit where lamps fade
 * @param command the most cycles that a command takes
 * @param broadcast cycles for each unit of a command to all
 */
public record Board(
    String word,
    int bits,
    int flashOfAll,
    int ramOfAll,
    int flash,
    int ram,
    int megahertz,
    int begin,
    int dark,
    Map<Lamps, Cost> steady,
    Map<Lamps, Cost> fading,
    int command,
    int broadcast) {

  /** Chains whose bytes our firmware for a board of 8 bits keeps, which sends them at once. */
  public static final int CHAINS_KEPT = 2;

  /** Bytes from {@link #tableAddress} on that no bootloader claims: 2 KB are left to that. */
  public static final int TABLE_ROOM = 0x3800;

  private static final int TABLE_ADDRESS = 0x4000;

  /** Every board whose figures were measured. */
  public static final List<Board> ALL = read();

  /** Copies the maps. */
  public Board {
    steady = Map.copyOf(steady);
    fading = Map.copyOf(fading);
  }

  /** What a reader has to do for the lamps of a unit. */
  public enum Lamps {
    /** Nothing more than a table of one level, without chips and numerals, asks for. */
    PLAIN,
    /** Some units of the table are less bright than others of their chain. */
    LEVELS,
    /** Units without chips, where others have them. */
    BESIDE_CHIPS,
    /** Units with chips of three channels. */
    CHIPS,
    /** Units without numerals, where others have them. */
    BESIDE_NUMERALS,
    /** Units with numerals. */
    NUMERALS;

    private String word() {
      return name().toLowerCase(Locale.ROOT).replace('_', '-');
    }
  }

  /**
   * What the LEDs of a unit cost, in cycles, on average.
   *
   * @param unit the first of them
   * @param lamp each other
   */
  public record Cost(int unit, int lamp) {}

  /**
   * Where our firmware for it looks for a table that came after it was compiled, by a bootloader:
   * an address of program memory, a choice of ours. Empty where tables come in other ways.
   */
  public OptionalInt tableAddress() {
    return bits == 8 ? OptionalInt.of(TABLE_ADDRESS) : OptionalInt.empty();
  }

  /** Its size in words. */
  public String size() {
    return bits
        + " bits, "
        + flashOfAll / 1024
        + " KB of flash, "
        + ramOfAll / 1024
        + " KB of memory";
  }

  @Override
  public String toString() {
    return word;
  }

  private static List<Board> read() {
    try (InputStream in = Board.class.getResourceAsStream("boards.txt");
        BufferedReader lines =
            new BufferedReader(new InputStreamReader(in, StandardCharsets.UTF_8))) {
      List<String> kept = lines.lines().filter(line -> !line.startsWith("#")).toList();
      int second =
          kept.indexOf(kept.stream().filter(l -> l.startsWith("lamps ")).findFirst().get());
      List<Map<String, String>> lamps = rows(kept.subList(second, kept.size()));
      return rows(kept.subList(0, second)).stream().map(row -> of(row, lamps)).toList();
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  /** What each row has in each column. */
  private static List<Map<String, String>> rows(List<String> lines) {
    List<String> columns = List.of(lines.get(0).split(" +"));
    List<Map<String, String>> rows = new ArrayList<>();
    for (String line : lines.subList(1, lines.size())) {
      List<String> row = List.of(line.split(" +"));
      Map<String, String> of = new HashMap<>();
      IntStream.range(0, columns.size()).forEach(i -> of.put(columns.get(i), row.get(i)));
      rows.add(of);
    }
    return rows;
  }

  private static Board of(Map<String, String> of, List<Map<String, String>> lamps) {
    Map<Lamps, Cost> steady = new EnumMap<>(Lamps.class);
    Map<Lamps, Cost> fading = new EnumMap<>(Lamps.class);
    for (Map<String, String> row : lamps) {
      if (row.get("board").equals(of.get("board"))) {
        Lamps sort = sort(row.get("lamps"));
        steady.put(sort, new Cost(number(row, "unit"), number(row, "lamp")));
        fading.put(sort, new Cost(number(row, "fading-unit"), number(row, "fading-lamp")));
      }
    }
    return new Board(
        of.get("board"),
        number(of, "bits"),
        number(of, "flash-of"),
        number(of, "ram-of"),
        number(of, "flash"),
        number(of, "ram"),
        number(of, "mhz"),
        number(of, "begin"),
        number(of, "dark"),
        steady,
        fading,
        number(of, "command"),
        number(of, "broadcast"));
  }

  private static Lamps sort(String word) {
    return Stream.of(Lamps.values()).filter(l -> l.word().equals(word)).findFirst().orElseThrow();
  }

  private static int number(Map<String, String> row, String column) {
    return Integer.parseInt(row.get(column));
  }
}
