package dev.doublet.check.budget;

import dev.doublet.check.Check;
import dev.doublet.diagnostic.Diagnostic;
import dev.doublet.diagnostic.Severity;
import dev.doublet.diagnostic.Words;
import dev.doublet.facts.LayoutFacts;
import dev.doublet.facts.RefreshTime;
import dev.doublet.layout.Board;
import dev.doublet.layout.Chain;
import dev.doublet.layout.Controller;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;

/**
 * A board that takes too long to work out and send all its chains for the fastest rhythm, fade or
 * swing on them, where no chain alone is too long.
 */
public final class SlowBoard implements Check.OfLayout {

  @Override
  public List<Diagnostic> find(LayoutFacts facts) {
    List<Diagnostic> found = new ArrayList<>();
    Map<Chain, ShortestChange> fastest = ShortestChange.ofChains(facts);
    for (Controller controller : facts.layout().controllers()) {
      Optional<ShortestChange> need =
          controller.chains().stream()
              .filter(fastest::containsKey)
              .map(fastest::get)
              .reduce(ShortestChange::shorter);
      Optional<RefreshTime> time = RefreshTime.of(facts, controller);
      boolean told =
          controller.chains().stream()
              .anyMatch(c -> fastest.containsKey(c) && SlowChain.isTooSlow(c, fastest.get(c)));
      if (need.isPresent() && time.isPresent() && !told && isTooSlow(time.get(), need.get())) {
        found.add(report(facts, controller, time.get(), need.get()));
      }
    }
    return found;
  }

  private static boolean isTooSlow(RefreshTime time, ShortestChange need) {
    return time.micros() / 1000 > need.perRefresh();
  }

  private Diagnostic report(
      LayoutFacts facts, Controller controller, RefreshTime time, ShortestChange need) {
    return finding(
            Severity.WARNING,
            controller.span(),
            Words.say(
                "controller %s takes %.1f ms to show its chains once, too long for %s",
                controller.name(), time.micros() / 1000, need.words()))
        .about(List.of(controller.name()))
        .label(
            Words.say(
                "%s with %s on %s",
                time.board(),
                Words.count(leds(controller), "LED"),
                Words.count(controller.chains().size(), "chain")))
        .related(need.span(), need.label())
        .word("controller", controller.name())
        .word("board", time.board().word())
        .number("LEDs", leds(controller), "")
        .measure("takes", time.micros() / 1000, 1, "ms")
        .measure("computing", time.computing() / 1000, 1, "ms")
        .number("shortest", need.millis(), "ms")
        .measure("needed", need.perRefresh(), 1, "ms")
        .fact(
            "of these",
            Words.say(
                "%.1f ms to work LEDs out, %.1f ms to send them, %.1f ms of rest%s",
                time.computing() / 1000,
                time.sending() / 1000,
                time.resting() / 1000,
                time.listening() == 0
                    ? ""
                    : Words.say(
                        ", %.1f ms for packets as fast as a track carries them",
                        time.listening() / 1000)))
        .fact("needed", Words.say("%.1f ms", need.perRefresh()))
        .because(need.why())
        .help(help(facts, controller, need));
  }

  private static String help(LayoutFacts facts, Controller controller, ShortestChange need) {
    List<String> fast =
        Board.ALL.stream()
            .filter(board -> !isTooSlow(RefreshTime.of(facts, controller, board), need))
            .map(Board::word)
            .toList();
    String share = "move signals to another controller, or use a program that sends chains at once";
    return fast.isEmpty() ? share : "take " + String.join(" or ", fast) + ", or " + share;
  }

  private static int leds(Controller controller) {
    return controller.chains().stream().mapToInt(Chain::leds).sum();
  }
}
