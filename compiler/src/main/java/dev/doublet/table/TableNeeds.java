package dev.doublet.table;

import dev.doublet.layout.Chain;
import dev.doublet.layout.Controller;

/**
 * What a table asks of its controller, in bytes.
 *
 * @param flash program memory for the table, without the reader's own code
 * @param reader memory for the reader
 * @param state memory for what signals show, and for fades where a lamp fades
 * @param leds memory for the bytes of every chain
 */
public record TableNeeds(int flash, int reader, int state, int leds) {
  /** Two pointers and a flag on 32-bit processors, and some to spare; a small one takes 5. */
  private static final int READER = 16;

  /**
   * What a table asks of its controller.
   *
   * @param table the table's bytes
   */
  public static TableNeeds of(Controller controller, byte[] table) {
    boolean fades = controller.units().stream().anyMatch(u -> !u.kind().glows().isEmpty());
    int unit = fades ? FadingReader.UNIT : TableReader.UNIT;
    int leds = 0;
    for (Chain chain : controller.chains()) {
      leds += chain.leds() * chain.part().channels();
    }
    return new TableNeeds(table.length, READER, unit * controller.units().size(), leds);
  }

  /** All memory but program memory. */
  public int ram() {
    return reader + state + leds;
  }
}
