package dev.doublet.check.colour;

import dev.doublet.check.Check;
import dev.doublet.colour.Chromaticity;
import dev.doublet.colour.Drive;
import dev.doublet.colour.Seeing;
import dev.doublet.diagnostic.Diagnostic;
import dev.doublet.diagnostic.Severity;
import dev.doublet.diagnostic.Words;
import dev.doublet.facts.LayoutFacts;
import dev.doublet.facts.LedGroup;
import dev.doublet.layout.Unit;
import java.util.ArrayList;
import java.util.List;
import java.util.SortedMap;
import java.util.stream.Stream;

/** A colour that turns into another one when its chain, or some lamps of it, are dimmed. */
public final class DimmedOffColour implements Check.OfLayout {

  @Override
  public List<Diagnostic> find(LayoutFacts facts) {
    List<Diagnostic> found = new ArrayList<>();
    for (LedGroup glow : facts.glows()) {
      SortedMap<String, Unit> shown = glow.shown();
      shown.forEach(
          (colour, unit) -> {
            Drive full = new Drive(glow.part().drive().get(colour));
            Chromaticity before = glow.part().family().light(full).chromaticity();
            Chromaticity after = glow.light(colour).chromaticity();
            if (before.difference(after) > Seeing.SAME) {
              found.add(report(glow, colour, unit, full, before.difference(after)));
            }
          });
    }
    return found;
  }

  private Diagnostic report(LedGroup glow, String colour, Unit unit, Drive full, double shift) {
    String message = Words.say("%s changes its colour on %s", colour, glow.words());
    Diagnostic found =
        unit.dimming().isNone()
            ? finding(Severity.WARNING, unit.chain().span(), message)
                .related(unit.span(), "shows it")
            : finding(Severity.WARNING, unit.span(), message);
    return found
        .about(glow.names(Stream.of(colour)))
        .word("colour", colour)
        .word("LEDs", glow.part().name())
        .measure("brightness", glow.brightness().percent(), 2, "%")
        .numbers("driven", full.levels())
        .numbers("dimmed", glow.sent(colour).levels())
        .measure("shift", shift, 4, "u'v'")
        .fact("driven", Words.say("%s becomes %s", full, glow.sent(colour)))
        .fact("moves in u'v' by", Words.say("%.4f", shift))
        .because(
            Words.say(
                "few whole levels are left of a weak drive, and a shift of more than %s is sure to be seen: seven steps, by which SAE J578 parts blue from blue-green to ensure it",
                Seeing.SAME))
        .help("use a higher \"brightness\", or write a drive for the colour that dims evenly");
  }
}
