package dev.doublet.table;

import dev.doublet.layout.Board;
import dev.doublet.layout.Controller;
import dev.doublet.rulebook.Rulebook;
import java.util.Arrays;
import java.util.stream.IntStream;

/**
 * What a table asks of its controller, in bytes, or why there can be no table.
 *
 * @param flash program memory for the table, without the reader's own code
 * @param reader memory for the reader
 * @param state memory for what signals show, and more where one settles, where a lamp fades, and
 *     for each servo
 * @param leds memory for the bytes of every chain, or of those that our firmware keeps at once
 * @param fault why no table can hold the controller's signals; empty when one can
 * @param digest equal for tables that do the same: a checksum of all but the edition; empty without
 *     a table
 * @param frame what its units ask of the reader in each frame; of none where only the bytes are
 *     known
 */
public record TableNeeds(
    int flash, int reader, int state, int leds, String fault, String digest, FrameNeeds frame) {
  /** The reader and a frame of it, on 32-bit processors; a small one takes less. */
  private static final int READER = 68;

  /** Where the edition stands, in two bytes. */
  private static final int EDITION = 8;

  /** Bytes over the end of a chain's: its last LED may have four channels. */
  private static final int OVER = 3;

  /** Bytes of saved states, beside one a unit. */
  private static final int SAVED = 8;

  /** What a sketch remembers of a servo. */
  private static final int SERVO = 4;

  /** Bytes by which the stack of our firmware is deeper where it gives servos their pulses. */
  private static final int PULSES = 40;

  /** Bytes that a unit remembers of its fade. */
  private static final int FADE = 2;

  /** What a controller's table will ask of it. */
  public static TableNeeds of(Rulebook book, Controller controller) {
    try {
      TableModel model = Lowering.lower(book, controller);
      byte[] table = TableWriter.write(model);
      return of(controller, table.length, "", digest(table), FrameNeeds.of(model));
    } catch (TableFault fault) {
      return of(controller, 0, fault.getMessage(), "", FrameNeeds.NONE);
    }
  }

  /**
   * What a table asks of its controller.
   *
   * @param table the table's bytes
   */
  static TableNeeds of(Controller controller, byte[] table) {
    return of(controller, table.length, "", digest(table), FrameNeeds.NONE);
  }

  /** The edition, and the checksum over it, are the only bytes that a new edition alone changes. */
  private static String digest(byte[] table) {
    byte[] rest = Arrays.copyOf(table, table.length - Integer.BYTES);
    Arrays.fill(rest, EDITION, EDITION + Short.BYTES, (byte) 0);
    return Integer.toHexString(Checksum.of(rest, rest.length));
  }

  private static TableNeeds of(
      Controller controller, int flash, String fault, String digest, FrameNeeds frame) {
    boolean fades = controller.units().stream().anyMatch(u -> !u.kind().glows().isEmpty());
    boolean settles = controller.units().stream().anyMatch(u -> u.kind().way().settle() > 0);
    int unit = TableReader.UNIT + (settles || controller.runsOurs() ? TableReader.SETTLING : 0);
    if (fades) {
      unit += FADE;
    }
    int units = controller.units().size();
    int servos = controller.units().stream().mapToInt(u -> u.servos().size()).sum();
    int state = unit * units + SERVO * servos;
    if (servos > 0 && controller.runsOurs()) {
      state += PULSES;
    }
    return new TableNeeds(flash, READER, state, leds(controller, units), fault, digest, frame);
  }

  /**
   * All chains; or what our firmware keeps of them, where states on their way to be kept go too.
   */
  private static int leds(Controller controller, int units) {
    IntStream chains =
        controller.chains().stream().mapToInt(chain -> chain.leds() * chain.part().channels());
    if (!controller.runsOurs()) {
      return chains.sum();
    }
    int kept = Math.min(controller.chains().size(), Board.CHAINS_KEPT);
    return Math.max(kept * (chains.max().orElse(0) + OVER), units + SAVED);
  }

  /** True when a table can hold the controller's signals. */
  public boolean isWritable() {
    return fault.isEmpty();
  }

  /** All memory but program memory. */
  public int ram() {
    return reader + state + leds;
  }
}
