package dev.doublet.facts;

import dev.doublet.layout.Board;
import dev.doublet.layout.Board.Lamps;
import dev.doublet.layout.Bus;
import dev.doublet.layout.Chain;
import dev.doublet.layout.Controller;
import dev.doublet.table.FrameNeeds;
import java.util.Map;
import java.util.Optional;
import java.util.function.ToIntFunction;

/**
 * How long a named board takes to show all its chains once: each LED worked out and then sent, one
 * chain after another, as the plainest program does it. A program that sends chains side by side is
 * faster.
 *
 * @param board the board
 * @param computing microseconds in which LEDs are worked out
 * @param sending microseconds for which LEDs are sent
 * @param resting microseconds for which the lines rest after each chain
 * @param listening microseconds for packets of DCC that come meanwhile, as fast as a track carries
 *     them, each a command that takes the longest; 0 where nothing listens to DCC
 * @param command microseconds for one command, at most
 * @param broadcast microseconds for a command to all, of which DCC has some; 0 without DCC
 */
public record RefreshTime(
    Board board,
    double computing,
    double sending,
    double resting,
    double listening,
    double command,
    double broadcast) {

  /** The least time between two packets (computed from NMRA S-9.1, S-9.2 and S-9.2.1). */
  private static final double PACKET = 5390;

  /** Cycles for the edges of a packet, 40 each: a guess of ours, the benchmark's too. */
  private static final int EDGES = 84 * 40;

  /** Of a controller; empty when its board is not named, or no table can hold its signals. */
  public static Optional<RefreshTime> of(LayoutFacts facts, Controller controller) {
    return controller
        .board()
        .filter(board -> facts.needs(controller).isWritable())
        .map(board -> of(facts, controller, board));
  }

  /** What it would be on another board. */
  public static RefreshTime of(LayoutFacts facts, Controller controller, Board board) {
    FrameNeeds frame = facts.needs(controller).frame();
    double sending = 0;
    double resting = 0;
    long dark = 0;
    for (Chain chain : controller.chains()) {
      sending += chain.refreshMicros() - chain.part().latchMicros();
      resting += chain.part().latchMicros();
      dark += chain.leds();
    }
    long units = 0;
    double cycles = (double) board.begin() * controller.chains().size();
    for (FrameNeeds.Hung hung : frame.hung()) {
      units += hung.units();
      dark -= hung.units() + hung.others();
      cycles += hung.units() * cost(board, frame, hung, Board.Cost::unit);
      cycles += hung.others() * cost(board, frame, hung, Board.Cost::lamp);
    }
    cycles += (double) board.dark() * dark;
    double computing = cycles / board.megahertz();
    boolean dcc =
        controller.units().stream().anyMatch(u -> u.command().bus().speaks() == Bus.Speaks.DCC);
    double command = (double) board.command() / board.megahertz();
    double share = dcc ? (command + (double) EDGES / board.megahertz()) / PACKET : 0;
    double alone = computing + sending + resting;
    return new RefreshTime(
        board,
        computing,
        sending,
        resting,
        alone * share / (1 - share),
        command,
        dcc ? (double) board.broadcast() * units / board.megahertz() : 0);
  }

  /**
   * Cycles of an LED: what LEDs of its sort cost, and what each else that the table needs costs
   * more than a plain one. Chips were measured with three channels, of which the first costs what
   * any LED does.
   */
  private static double cost(
      Board board, FrameNeeds frame, FrameNeeds.Hung hung, ToIntFunction<Board.Cost> of) {
    Map<Lamps, Board.Cost> costs = frame.fades() ? board.fading() : board.steady();
    double plain = of.applyAsInt(costs.get(Lamps.PLAIN));
    double cycles = plain;
    for (Lamps more : frame.more()) {
      cycles += of.applyAsInt(costs.get(more)) - plain;
    }
    if (hung.lamps() == Lamps.CHIPS) {
      double channels =
          of.applyAsInt(costs.get(Lamps.CHIPS)) - of.applyAsInt(costs.get(Lamps.BESIDE_CHIPS));
      cycles += channels * (hung.lights() - 1) / 2;
    } else if (hung.lamps() == Lamps.NUMERALS) {
      cycles +=
          of.applyAsInt(costs.get(Lamps.NUMERALS))
              - of.applyAsInt(costs.get(Lamps.BESIDE_NUMERALS));
    }
    return cycles;
  }

  /** Microseconds in all. */
  public double micros() {
    return computing + sending + resting + listening;
  }
}
