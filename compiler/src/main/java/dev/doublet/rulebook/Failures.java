package dev.doublet.rulebook;

import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.TreeSet;
import java.util.stream.Collectors;

/**
 * What a rulebook says of signals that fail.
 *
 * @param provisos what comes before that, the first that applies
 * @param imperfect how a crew reads a picture that the book does not define
 * @param covers sorted by reason, then by what they cover
 * @param errors the faults whose hazards the book will not have at all
 */
public record Failures(
    List<Proviso> provisos, Imperfect imperfect, List<Cover> covers, Set<Fault> errors) {
  private static final Comparator<Cover> COVER_ORDER =
      Comparator.comparing(Cover::reason)
          .thenComparing(c -> new TreeSet<>(c.faults()).toString())
          .thenComparing(c -> c.forms().stream().map(Form::name).toList().toString());

  /** A rulebook that says nothing of it. */
  public static final Failures UNSAID =
      new Failures(List.of(), Imperfect.UNSAID, List.of(), Set.of());

  /** Copies and sorts. */
  public Failures {
    provisos = List.copyOf(provisos);
    covers = covers.stream().sorted(COVER_ORDER).toList();
    errors = Set.copyOf(errors);
  }

  /** How a crew reads a picture that the rulebook does not define. */
  public enum Imperfect {
    /** Nobody said. */
    UNSAID(""),
    /** By what is lit, as if the dark heads were not there. */
    AS_LIT("lit"),
    /** As any aspect that what is lit may be part of, whatever the dark heads hide. */
    ANY_FITTING("any fitting"),
    /** As the most restrictive aspect that fits what is lit. */
    MOST_RESTRICTIVE_FITTING("most restrictive fitting"),
    /** As the most restrictive aspect that the signal can show. */
    MOST_RESTRICTIVE("most restrictive");

    /** What a rulebook can say. */
    public static final List<Imperfect> CHOICES =
        List.of(AS_LIT, ANY_FITTING, MOST_RESTRICTIVE_FITTING, MOST_RESTRICTIVE);

    private final String words;

    Imperfect(String words) {
      this.words = words;
    }

    /** As the language says it, after {@code as}; empty when it does not. */
    public String words() {
      return words;
    }
  }

  /** How imperfect signals are read, as the language says it; empty when it does not. */
  public String reading() {
    return provisos.isEmpty()
        ? imperfect.words()
        : provisos.stream().map(Proviso::words).collect(Collectors.joining(", "))
            + ", else "
            + imperfect.words();
  }

  /** The first cover of a fault on a form. */
  public Optional<Cover> cover(Fault fault, Form form) {
    return covers.stream().filter(c -> c.covers(fault, form)).findFirst();
  }
}
