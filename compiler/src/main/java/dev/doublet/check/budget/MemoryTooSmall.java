package dev.doublet.check.budget;

import dev.doublet.check.Check;
import dev.doublet.diagnostic.Datum;
import dev.doublet.diagnostic.Diagnostic;
import dev.doublet.diagnostic.Severity;
import dev.doublet.diagnostic.Words;
import dev.doublet.facts.LayoutFacts;
import dev.doublet.layout.Controller;
import dev.doublet.table.TableNeeds;
import java.util.ArrayList;
import java.util.List;

/** A controller whose flash or working memory is too small for its signals. */
public final class MemoryTooSmall implements Check.OfLayout {

  /** It makes tables to measure them. */
  @Override
  public boolean takesLong() {
    return true;
  }

  @Override
  public Needs needs() {
    return Needs.BOOK;
  }

  @Override
  public List<Diagnostic> find(LayoutFacts facts) {
    List<Diagnostic> found = new ArrayList<>();
    for (Controller controller : facts.layout().controllers()) {
      TableNeeds needs = facts.needs(controller);
      int flash = controller.flash().orElse(Integer.MAX_VALUE);
      int ram = controller.ram().orElse(Integer.MAX_VALUE);
      if (needs.flash() > flash) {
        found.add(
            report(controller, "flash", needs.flash(), flash)
                .fact("counted", "the table alone, not the program that reads it"));
      }
      if (needs.ram() > ram) {
        found.add(
            report(controller, "ram", needs.ram(), ram)
                .fact(
                    "counted",
                    Words.say(
                        "%d for the reader, %d for %s, %d for the LEDs",
                        needs.reader(),
                        needs.state(),
                        Words.count(controller.units().size(), "signal"),
                        needs.leds())));
      }
    }
    return found;
  }

  private Diagnostic report(Controller controller, String memory, int needed, int given) {
    return finding(
            Severity.ERROR,
            controller.span(),
            Words.say(
                "controller %s needs %d bytes of %s and has %d",
                controller.name(), needed, memory, given))
        .about(List.of(controller.name(), memory))
        .label("{short} short", Datum.count("short", needed - given, "byte"))
        .word("controller", controller.name())
        .word("memory", memory)
        .number("needed", needed, "byte")
        .number("given", given, "byte")
        .because("the program would not fit, or would overwrite its own memory while running")
        .help(
            "move signals to another controller, or raise the figure if the controller has more to spare");
  }
}
