package dev.doublet.check.colour;

import dev.doublet.check.Check;
import dev.doublet.colour.Seeing;
import dev.doublet.diagnostic.Datum;
import dev.doublet.diagnostic.Diagnostic;
import dev.doublet.diagnostic.Severity;
import dev.doublet.diagnostic.Words;
import dev.doublet.facts.LayoutFacts;
import dev.doublet.facts.LayoutFacts.BuildGroup;
import dev.doublet.layout.Layout;
import dev.doublet.layout.Size;
import dev.doublet.layout.Viewing;
import dev.doublet.rulebook.HeadType;
import java.util.List;
import java.util.Optional;

/** Lamps too near one another to be seen apart. */
public final class LampsMerge implements Check.OfLayout {

  @Override
  public List<Diagnostic> find(LayoutFacts facts) {
    Layout layout = facts.layout();
    return facts.builds().stream()
        .filter(built -> built.sight().merges())
        .flatMap(built -> layout.viewing().flatMap(v -> report(v, built)).stream())
        .toList();
  }

  private Optional<Diagnostic> report(Viewing viewing, BuildGroup built) {
    Size size = built.build().size();
    double spacing = size.onModel(viewing.lampSpacing());
    double resolved = Seeing.size(Seeing.RESOLVED, viewing.metres() * 1000);
    Optional<HeadType> head =
        built.build().heads().stream().filter(h -> h.lamps().size() > 1).findFirst();
    return head.map(
        several ->
            finding(
                    Severity.WARNING,
                    built.first().span(),
                    Words.say(
                        "the lamps of %s merge into one from %s m",
                        built.words(), plain(viewing.metres())))
                .about(built.names())
                .words("signals", built.names())
                .measure("viewed from", viewing.metres(), 2, "m")
                .measure("lamps apart", spacing, 2, "mm")
                .measure("resolved", resolved, 2, "mm")
                .related(
                    several.span(),
                    "{lamps} in one head",
                    Datum.count("lamps", several.lamps().size(), "lamp"))
                .fact(
                    "lamps stand",
                    Words.say(
                        "%.2f mm apart (%s mm at 1:%s)",
                        spacing, plain(viewing.lampSpacing()), plain(size.scale())))
                .fact("eyes resolve", Words.say("%.2f mm", resolved))
                .fact(
                    "told apart",
                    Words.say("up to %.1f m", Seeing.distance(spacing, Seeing.RESOLVED) / 1000))
                .because(
                    "normal eyes resolve one minute of arc; nearer lamps are seen as one, so their place tells nothing")
                .help(
                    "set the lamps farther apart and say their \"lamp-spacing\", or give the \"viewing\" distance that is meant"));
  }

  private static String plain(double number) {
    return number == Math.rint(number) ? Words.say("%.0f", number) : Words.say("%s", number);
  }
}
