package dev.doublet.facts;

import dev.doublet.layout.Board;
import dev.doublet.layout.Bus;
import dev.doublet.layout.Chain;
import dev.doublet.layout.Controller;
import dev.doublet.layout.Unit;
import java.util.Optional;

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

  /** Of a controller; empty when its board is not named. */
  public static Optional<RefreshTime> of(Controller controller) {
    return controller.board().map(board -> of(controller, board));
  }

  /** What it would be on another board. */
  public static RefreshTime of(Controller controller, Board board) {
    boolean fades = controller.units().stream().anyMatch(u -> !u.kind().glows().isEmpty());
    Board.Cost cost = fades ? board.fading() : board.steady();
    double sending = 0;
    double resting = 0;
    long dark = 0;
    for (Chain chain : controller.chains()) {
      sending += chain.refreshMicros() - chain.part().latchMicros();
      resting += chain.part().latchMicros();
      dark += chain.leds();
    }
    long units = controller.units().size();
    long lamps = 0;
    for (Unit unit : controller.units()) {
      lamps += unit.kind().leds() - 1;
    }
    dark -= lamps + units;
    long cycles =
        cost.begin() * (long) controller.chains().size()
            + cost.unit() * units
            + cost.lamp() * lamps
            + cost.dark() * dark;
    double computing = (double) cycles / board.megahertz();
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

  /** Microseconds in all. */
  public double micros() {
    return computing + sending + resting + listening;
  }
}
