package dev.doublet.check.colour;

import dev.doublet.check.Check;
import dev.doublet.colour.Eye;
import dev.doublet.colour.Seeing;
import dev.doublet.diagnostic.Diagnostic;
import dev.doublet.diagnostic.Label;
import dev.doublet.diagnostic.Severity;
import dev.doublet.diagnostic.Words;
import dev.doublet.facts.Contrast;
import dev.doublet.facts.LayoutFacts;
import dev.doublet.facts.LedGroup;
import dev.doublet.layout.Layout;
import dev.doublet.layout.Part;
import dev.doublet.source.Span;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.EnumMap;
import java.util.EnumSet;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.function.ToDoubleFunction;

/** Two colours that tell aspects apart and look too much alike. */
public final class ColoursTooClose implements Check.OfLayout {

  @Override
  public List<Diagnostic> find(LayoutFacts facts) {
    Map<Found, List<Contrast>> found = new LinkedHashMap<>();
    for (LedGroup glow : facts.glows()) {
      for (Contrast contrast : Contrast.of(glow)) {
        Set<Eye> counting = counting(facts.layout(), contrast);
        Map<Eye, Verdict> verdicts = new EnumMap<>(Eye.class);
        for (Eye eye : Eye.values()) {
          verdict(contrast, eye, counting.contains(eye)).ifPresent(v -> verdicts.put(eye, v));
        }
        verdicts.values().stream()
            .min(Comparator.naturalOrder())
            .ifPresent(
                worst -> {
                  verdicts.values().removeIf(v -> v != worst);
                  found
                      .computeIfAbsent(
                          Found.of(contrast, worst, verdicts.keySet()), f -> new ArrayList<>())
                      .add(contrast);
                });
      }
    }
    return found.entrySet().stream().map(of -> report(of.getKey(), of.getValue())).toList();
  }

  /** What is found of LEDs of one kind, at however many brightnesses. */
  private record Found(
      Part part,
      List<String> colours,
      Verdict verdict,
      List<Eye> eyes,
      List<String> aspects,
      boolean merged) {

    static Found of(Contrast contrast, Verdict verdict, Set<Eye> eyes) {
      return new Found(
          contrast.glow().part(),
          List.copyOf(contrast.pairs().keySet()),
          verdict,
          List.copyOf(eyes),
          List.of(contrast.one().name(), contrast.other().name()),
          contrast.merged());
    }

    /** How far colours are apart to those of the eyes that tell them apart least. */
    double apart(Contrast contrast) {
      return eyes.stream()
          .mapToDouble(verdict.isOfBins() ? contrast::ofWorst : contrast::ofMiddle)
          .min()
          .orElseThrow();
    }
  }

  /** The eyes that must be able to tell: small lamps leave nobody short-wave cones. */
  private static Set<Eye> counting(Layout layout, Contrast contrast) {
    Set<Eye> eyes = EnumSet.of(Eye.NORMAL);
    layout.viewing().ifPresent(viewing -> eyes.addAll(viewing.eyes()));
    if (contrast.isTritan()) {
      eyes.add(Eye.TRITAN);
    }
    return eyes;
  }

  /** What some eyes make of two colours, worst first. */
  private enum Verdict {
    SAME(Severity.ERROR, "the same"),
    ALIKE(Severity.WARNING, "much alike"),
    SAME_AT_WORST(Severity.WARNING, "the same"),
    ALIKE_AT_WORST(Severity.NOTE, "much alike"),
    ALIKE_TO_OTHERS(Severity.NOTE, "much alike");

    private final Severity severity;
    private final String words;

    Verdict(Severity severity, String words) {
      this.severity = severity;
      this.words = words;
    }

    boolean isOfBins() {
      return this == SAME_AT_WORST || this == ALIKE_AT_WORST;
    }
  }

  /** Empty when these eyes can tell; bins matter to eyes that count. */
  private static Optional<Verdict> verdict(Contrast contrast, Eye eye, boolean counts) {
    double middle = contrast.ofMiddle(eye);
    if (middle < Seeing.APART) {
      Verdict alike = middle < Seeing.SAME ? Verdict.SAME : Verdict.ALIKE;
      return Optional.of(counts ? alike : Verdict.ALIKE_TO_OTHERS);
    }
    double worst = counts ? contrast.ofWorst(eye) : middle;
    return worst >= Seeing.APART
        ? Optional.empty()
        : Optional.of(worst < Seeing.SAME ? Verdict.SAME_AT_WORST : Verdict.ALIKE_AT_WORST);
  }

  private Diagnostic report(Found found, List<Contrast> contrasts) {
    List<LedGroup> glows = contrasts.stream().map(Contrast::glow).toList();
    List<String> eyes = found.eyes().stream().map(ColoursTooClose::word).toList();
    Contrast closest =
        contrasts.stream().min(Comparator.comparingDouble(found::apart)).orElseThrow();
    Diagnostic said =
        finding(
                found.verdict().severity,
                contrasts.get(0).unit().span(),
                Words.say(
                    "%s on %s look %s to %s eyes%s",
                    Words.list(found.colours()),
                    LedGroup.words(glows),
                    found.verdict().words,
                    Words.list(eyes),
                    found.verdict().isOfBins() ? ", for some LEDs of the bins" : ""))
            .about(LedGroup.names(glows, found.colours().stream()))
            .words("colours", found.colours())
            .word("LEDs", found.part().name())
            .words("brightnesses", glows.stream().map(g -> g.brightness().words()).toList())
            .measure("brightness", closest.glow().brightness().percent(), 2, "%")
            .words("eyes", eyes)
            .words("aspects", found.aspects())
            .fact("tell apart", Words.quoted(found.aspects(), name -> name));
    if (contrasts.size() > 1) {
      said =
          said.alsoAt(others(contrasts)).fact("most alike at", closest.glow().brightness().words());
    }
    said = said.fact("differ in u'v' by", figures(List.of(Eye.values()), closest::ofMiddle));
    if (found.verdict().isOfBins()) {
      said = said.fact("at the ends of the bins", figures(found.eyes(), closest::ofWorst));
    }
    if (found.merged()) {
      said = said.fact("place", "tells nothing, since the lamps of a head are seen as one");
    }
    return said.because(
            Words.say(
                "colours are to be %s apart (our choice), and under %s no difference is sure to be seen: seven steps, by which SAE J578 parts blue from blue-green to ensure one; simulated by Brettel, Vienot and Mollon 1997",
                Seeing.APART, Seeing.SAME))
        .help(help(found.verdict(), found.merged()));
  }

  /** Where LEDs of other brightnesses hang than those at the first place. */
  private static List<Label> others(List<Contrast> contrasts) {
    Set<Span> places = new HashSet<>(Set.of(contrasts.get(0).unit().span()));
    return contrasts.stream()
        .filter(c -> places.add(c.unit().span()))
        .map(c -> new Label(c.unit().span(), "at " + c.glow().brightness().words()))
        .toList();
  }

  private static String help(Verdict verdict, boolean merged) {
    String change =
        merged
            ? "change one of the two colours, set the lamps farther apart, or let one flash"
            : "change one of the two colours, show them with different lamps, or let one flash";
    return switch (verdict) {
      case SAME, ALIKE -> change;
      case SAME_AT_WORST, ALIKE_AT_WORST ->
          "measure an LED of each reel and write \"measured\" for this kind of LED, so that bins no longer count; or "
              + change;
      case ALIKE_TO_OTHERS ->
          "nothing, unless such eyes are to read these signals: then give the colours different lamps or rhythms, and say \"eyes\"";
    };
  }

  private static String figures(List<Eye> eyes, ToDoubleFunction<Eye> apart) {
    return Words.list(
        eyes.stream()
            .map(eye -> Words.say("%.4f to %s eyes", apart.applyAsDouble(eye), word(eye)))
            .toList());
  }

  private static String word(Eye eye) {
    return eye.name().toLowerCase(Locale.ROOT);
  }
}
