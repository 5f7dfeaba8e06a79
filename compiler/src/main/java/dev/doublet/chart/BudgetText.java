package dev.doublet.chart;

import dev.doublet.diagnostic.Words;
import dev.doublet.facts.LayoutFacts;
import dev.doublet.facts.RefreshTime;
import dev.doublet.layout.Board;
import dev.doublet.layout.Chain;
import dev.doublet.layout.Controller;
import dev.doublet.layout.Supply;
import dev.doublet.table.TableNeeds;

/** What each controller of a layout needs of what it has: memory, current and time. */
public final class BudgetText {
  private BudgetText() {}

  /** A line for each controller, and one for each of its chains. */
  public static String text(LayoutFacts facts) {
    StringBuilder out = new StringBuilder();
    for (Controller controller : facts.layout().controllers()) {
      TableNeeds needs = facts.needs(controller);
      out.append(
          Words.say(
              "%s.bin: %s, %d of %d bytes of flash, %d of %d bytes of ram%s\n",
              controller.name(),
              Words.count(controller.signals().size(), "signal"),
              needs.flash(),
              controller.flash().orElseThrow(),
              needs.ram(),
              controller.ram().orElseThrow(),
              facts.layout().module(controller).map(m -> "; " + m.words()).orElse("")));
      if (lacksHex(controller, needs)) {
        out.append(
            Words.say(
                "  no %s.hex: a bootloader has room for %d bytes of table\n",
                controller.name(), Board.TABLE_ROOM));
      }
      controller.chains().forEach(chain -> out.append(line(facts, controller, chain)));
      RefreshTime.of(facts, controller).ifPresent(time -> out.append(line(time)));
    }
    return out.toString();
  }

  private static boolean lacksHex(Controller controller, TableNeeds needs) {
    return needs.flash() > Board.TABLE_ROOM
        && controller.board().filter(b -> b.tableAddress().isPresent()).isPresent();
  }

  private static String line(LayoutFacts facts, Controller controller, Chain chain) {
    Supply supply = chain.supply();
    String given = supply.milliamps() == 0 ? "" : Words.say(" of %d", supply.milliamps());
    String shared = supply.name().isEmpty() ? "" : " of supply " + supply.name();
    String least =
        facts
            .flow(controller, chain)
            .map(f -> Words.say(", at least %.2f V", f.leastVolts()))
            .orElse("");
    return Words.say(
        "  chain %s: %s, at most %.0f%s mA%s%s, sent in %.1f ms\n",
        chain.name(),
        Words.count(chain.leds(), "LED"),
        Math.ceil(facts.draw(controller, chain).milliamps()),
        given,
        shared,
        least,
        chain.refreshMicros() / 1000);
  }

  private static String line(RefreshTime time) {
    String listens =
        time.listening() == 0
            ? ""
            : Words.say(
                ", %.1f for packets of DCC; a command takes %.1f ms, one to all %.1f",
                time.listening() / 1000, time.command() / 1000, time.broadcast() / 1000);
    return Words.say(
        "  board %s: shows all once in %.1f ms: %.1f to work it out, %.1f to send it%s\n",
        time.board(),
        time.micros() / 1000,
        time.computing() / 1000,
        (time.sending() + time.resting()) / 1000,
        listens);
  }
}
