package dev.doublet.layout;

import dev.doublet.source.Span;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.OptionalInt;

/**
 * One controller with its chains and signals.
 *
 * @param name as the layout calls it; table files are named after it
 * @param boardOrNull which board it is, where the layout names one whose figures are known
 * @param flashOrNull bytes of program memory left for the table
 * @param ramOrNull bytes of memory left for the reader and the LED buffers
 * @param chains in the order declared
 * @param signals in chain order
 * @param span where it is declared
 */
public record Controller(
    String name,
    Board boardOrNull,
    Integer flashOrNull,
    Integer ramOrNull,
    List<Chain> chains,
    List<Signal> signals,
    Span span) {

  /** Copies the lists. */
  public Controller {
    chains = List.copyOf(chains);
    signals = List.copyOf(signals);
  }

  /** What the names in the header of a controller's table begin with, in capital letters. */
  public static String prefix(String name) {
    String prefix = name.toUpperCase(Locale.ROOT).replaceAll("[^A-Z0-9]", "_");
    return !prefix.isEmpty() && Character.isDigit(prefix.charAt(0)) ? "TABLE_" + prefix : prefix;
  }

  /** Which board it is; empty when the layout names none. */
  public Optional<Board> board() {
    return Optional.ofNullable(boardOrNull);
  }

  /**
   * True when it runs the firmware that we give for boards of 8 bits: no memory of another is said.
   */
  public boolean runsOurs() {
    return boardOrNull != null
        && boardOrNull.tableAddress().isPresent()
        && ram().equals(OptionalInt.of(boardOrNull.ram()));
  }

  /** Bytes of program memory left for the table; empty when that could not be read. */
  public OptionalInt flash() {
    return flashOrNull == null ? OptionalInt.empty() : OptionalInt.of(flashOrNull);
  }

  /** Bytes of memory left for the reader and the LED buffers; empty when that could not be read. */
  public OptionalInt ram() {
    return ramOrNull == null ? OptionalInt.empty() : OptionalInt.of(ramOrNull);
  }

  /** Every unit, in chain order. */
  public List<Unit> units() {
    return signals.stream().flatMap(s -> s.units().stream()).toList();
  }
}
