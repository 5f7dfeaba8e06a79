package dev.doublet.rulebook;

import dev.doublet.diagnostic.Datum;
import dev.doublet.diagnostic.Diagnostic;
import dev.doublet.diagnostic.Fix;
import dev.doublet.diagnostic.Label;
import dev.doublet.diagnostic.Severity;
import dev.doublet.diagnostic.Tier;
import dev.doublet.source.Nearest;
import dev.doublet.source.Span;
import dev.doublet.syntax.Word;
import java.util.ArrayList;
import java.util.Collection;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.stream.Collectors;

/** Gathers what is wrong with a rulebook, and says each unknown name once. */
final class Mistakes {
  private static final String DECLARED = "a name means something only once it is declared.";

  private final List<Diagnostic> said = new ArrayList<>();
  private final Map<String, Unknown> unknown = new LinkedHashMap<>();

  void add(Diagnostic diagnostic) {
    said.add(diagnostic);
  }

  /**
   * Notes a name that nothing declares.
   *
   * @param kind what it should name: "colour", "lamp of head position"
   * @param declared the names it could have been
   * @param declare how to declare it, as an order
   */
  void unknown(String kind, Word name, Collection<String> declared, String declare) {
    unknown(kind, name, declared, declare, DECLARED);
  }

  /**
   * The same of a name that is not the author's to declare.
   *
   * @param otherwise what else to do, as an order
   * @param why why only these will do
   */
  void unknown(String kind, Word name, Collection<String> known, String otherwise, String why) {
    unknown
        .computeIfAbsent(
            kind + " " + name.text(),
            key -> new Unknown(kind, name, List.copyOf(known), otherwise, why, new ArrayList<>()))
        .places()
        .add(name.span());
  }

  /** True when a name was noted as one that nothing declares. */
  boolean isUnknown(String kind, Word name) {
    return unknown.containsKey(kind + " " + name.text());
  }

  /** Every name noted as one that nothing declares. */
  Set<String> unknown() {
    return unknown.values().stream().map(u -> u.name().text()).collect(Collectors.toSet());
  }

  /** A second declaration of something that may be declared once. */
  void duplicate(Span second, String message, Span first, String why, String help, Datum... data) {
    add(
        Diagnostic.error("duplicate-name", Tier.NAMES, second, message, data)
            .label("again")
            .related(first, "first")
            .because(why)
            .help(help, data));
  }

  /**
   * What is written can be read, and cannot be so.
   *
   * @param name the name of the finding
   */
  void wrong(String name, Span span, String message, String why, String help, Datum... data) {
    add(Diagnostic.error(name, Tier.STRUCTURE, span, message, data).because(why).help(help, data));
  }

  /** The same, for a reason that a published source gives. */
  void cited(
      String name,
      Span span,
      String message,
      String why,
      String source,
      String help,
      Datum... data) {
    add(
        Diagnostic.error(name, Tier.STRUCTURE, span, message, data)
            .because(why, source)
            .help(help, data));
  }

  /** True when anything is wrong, rather than only worth a note. */
  boolean hasErrors() {
    return !unknown.isEmpty() || said.stream().anyMatch(d -> d.severity() == Severity.ERROR);
  }

  /**
   * Everything, in no order.
   *
   * @param kinds what each name that is declared stands for: "head"
   */
  List<Diagnostic> all(Map<String, String> kinds) {
    List<Diagnostic> all = new ArrayList<>(said);
    unknown.values().forEach(u -> all.add(u.diagnostic(kinds.getOrDefault(u.name().text(), ""))));
    return all;
  }

  private record Unknown(
      String kind,
      Word name,
      List<String> declared,
      String declare,
      String why,
      List<Span> places) {

    /**
     * What is said of it.
     *
     * @param otherKind what else is called so; may be empty
     */
    Diagnostic diagnostic(String otherKind) {
      Diagnostic diagnostic =
          Diagnostic.error(
                  "unknown-name",
                  Tier.NAMES,
                  places.get(0),
                  "no {kind} is called \"{name}\"",
                  Datum.of("kind", kind),
                  Datum.of("name", name.text()))
              .label(why.equals(DECLARED) ? "not declared" : "not known");
      diagnostic =
          diagnostic.alsoAt(
              places.stream().skip(1).map(place -> new Label(place, "and here")).toList());
      if (!otherKind.isEmpty()) {
        diagnostic = diagnostic.fact("of that name", "a " + otherKind);
      }
      diagnostic = diagnostic.because(why);
      var near = Nearest.to(name.text(), declared);
      if (near.isPresent()) {
        return diagnostic
            .help("did you mean {meant}? Otherwise " + declare + ".", Datum.of("meant", near.get()))
            .fix(
                new Fix(
                    "write " + near.get(),
                    places.stream().map(p -> new Fix.Edit(p, asWritten(near.get(), p))).toList(),
                    Nearest.isSure(name.text(), near.get(), declared)));
      }
      if (declared.isEmpty()) {
        return diagnostic.help(declare + ".");
      }
      List<String> known = declared.stream().sorted().distinct().toList();
      String these = known.size() == 1 ? "the one there is" : "one of these";
      return diagnostic.help(
          declare + ", or use " + these + ": {known}.", Datum.of("known", known));
    }

    private static String asWritten(String meant, Span place) {
      return place.text().startsWith("\"") ? "\"" + meant + "\"" : meant;
    }
  }
}
