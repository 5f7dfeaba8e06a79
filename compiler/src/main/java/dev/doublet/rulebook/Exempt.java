package dev.doublet.rulebook;

import dev.doublet.diagnostic.Datum;
import dev.doublet.diagnostic.Diagnostic;
import dev.doublet.diagnostic.Tier;
import dev.doublet.source.Span;
import java.util.List;
import java.util.Optional;
import java.util.function.BiPredicate;
import java.util.stream.Collectors;
import java.util.stream.IntStream;

/**
 * Pictures that an aspect shows and one that is like it does not.
 *
 * @param choices for each head, or each that is not usually dark
 * @param span where they are written
 */
record Exempt(List<Choice> choices, Span span) {
  private static final int PATTERNS_SHOWN = 3;

  /** True when no picture of a pattern is left. */
  boolean covers(Pattern pattern) {
    return holds(pattern, Choice::acceptsAll);
  }

  /** What is wrong when these meet none of some patterns of an aspect, or only a part of one. */
  Optional<Diagnostic> mistake(Aspect other, List<Pattern> patterns) {
    for (Pattern pattern : patterns) {
      if (holds(pattern, Choice::meets) && !covers(pattern)) {
        return Optional.of(onlyPart(other, pattern));
      }
    }
    return patterns.stream().anyMatch(this::covers)
        ? Optional.empty()
        : Optional.of(fitsNone(other, patterns));
  }

  private boolean holds(Pattern pattern, BiPredicate<Choice, Choice> test) {
    if (!pattern.form().takes(choices.size())) {
      return false;
    }
    List<Choice> every = pattern.form().everyHead(choices, span);
    return IntStream.range(0, every.size())
        .allMatch(i -> test.test(every.get(i), pattern.choices().get(i)));
  }

  private Diagnostic onlyPart(Aspect other, Pattern pattern) {
    return wrong("{exception} is only a part of a pattern of \"{aspect}\"", other)
        .related(
            pattern.span(),
            "shows {pattern} on {form}",
            Datum.of("pattern", pattern.words()),
            Datum.of("form", pattern.form().name()))
        .because("a pattern is taken over whole or not at all.")
        .help("leave out the whole pattern; what is left of it can be a pattern of its own.");
  }

  private Diagnostic fitsNone(Aspect other, List<Pattern> patterns) {
    Diagnostic diagnostic = wrong("no pattern of \"{aspect}\" is {exception}", other);
    for (Pattern pattern : patterns.subList(0, Math.min(patterns.size(), PATTERNS_SHOWN))) {
      diagnostic =
          diagnostic.related(
              pattern.span(),
              "shows {pattern} on {form}",
              Datum.of("pattern", pattern.words()),
              Datum.of("form", pattern.form().name()));
    }
    return diagnostic
        .because("an exception that meets nothing is misspelt, or no longer needed.")
        .help("write one of its patterns, with a display for every head, or take this away.");
  }

  private Diagnostic wrong(String message, Aspect other) {
    return Diagnostic.error(
        "unfit-exception",
        Tier.STRUCTURE,
        span,
        message,
        Datum.of("exception", words()),
        Datum.of("aspect", other.name()));
  }

  private String words() {
    return choices.stream().map(Choice::words).collect(Collectors.joining(" over "));
  }
}
