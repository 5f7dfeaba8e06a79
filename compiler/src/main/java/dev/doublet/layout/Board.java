package dev.doublet.layout;

import java.io.BufferedReader;
import java.io.IOException;
import java.io.InputStream;
import java.io.InputStreamReader;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.OptionalInt;

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
 * @param steady cycles for a frame where lamps switch at once
 * @param fading cycles for a frame where lamps fade
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
    Cost steady,
    Cost fading,
    int command,
    int broadcast) {

  /** Chains whose bytes our firmware for a board of 8 bits keeps, which sends them at once. */
  public static final int CHAINS_KEPT = 2;

  /** Bytes from {@link #tableAddress} on that no bootloader claims: 2 KB are left to that. */
  public static final int TABLE_ROOM = 0x3800;

  private static final int TABLE_ADDRESS = 0x4000;

  /** Every board whose figures were measured. */
  public static final List<Board> ALL = read();

  /**
   * What a frame of a chain costs, in cycles, on average.
   *
   * @param begin to begin it
   * @param unit the first LED of a unit
   * @param lamp each other LED of a unit
   * @param dark an LED that belongs to none
   */
  public record Cost(int begin, int unit, int lamp, int dark) {}

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
      List<List<String>> rows =
          lines
              .lines()
              .filter(line -> !line.startsWith("#"))
              .map(line -> List.of(line.split(" +")))
              .toList();
      return rows.stream().skip(1).map(row -> of(rows.get(0), row)).toList();
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  private static Board of(List<String> columns, List<String> row) {
    Map<String, Integer> of = new HashMap<>();
    for (int i = 2; i < columns.size(); i++) {
      of.put(columns.get(i), Integer.valueOf(row.get(i)));
    }
    return new Board(
        row.get(0),
        of.get("bits"),
        of.get("flash-of"),
        of.get("ram-of"),
        of.get("flash"),
        of.get("ram"),
        of.get("mhz"),
        new Cost(of.get("begin"), of.get("unit"), of.get("lamp"), of.get("dark")),
        new Cost(of.get("begin"), of.get("fading-unit"), of.get("fading-lamp"), of.get("dark")),
        of.get("command"),
        of.get("broadcast"));
  }
}
