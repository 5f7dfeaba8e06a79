package dev.doublet.layout.read;

import dev.doublet.diagnostic.Diagnostic;
import dev.doublet.diagnostic.Severity;
import dev.doublet.diagnostic.Shortlist;
import dev.doublet.diagnostic.Tier;
import dev.doublet.layout.Part;
import dev.doublet.source.Nearest;
import dev.doublet.source.Span;
import dev.doublet.syntax.YamlNode;
import java.util.Collection;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.stream.Collectors;
import java.util.stream.Stream;

/** Gathers what is wrong with a layout, each mistake once, and keeps the wording in one place. */
final class Complaints {
  private static final int MOST_SHOWN = 10;

  private final Set<Diagnostic> said = new LinkedHashSet<>();
  private final Map<List<String>, Nameless> nameless = new LinkedHashMap<>();
  private final Set<List<String>> driveless = new HashSet<>();

  /** Everything said, by place. */
  List<Diagnostic> all() {
    return Shortlist.of(
        Stream.concat(said.stream(), nameless.values().stream().map(Nameless::diagnostic))
            .toList());
  }

  /** True when nothing can be built. */
  boolean hasErrors() {
    return !nameless.isEmpty() || said.stream().anyMatch(d -> d.severity() == Severity.ERROR);
  }

  void addAll(List<Diagnostic> diagnostics) {
    said.addAll(diagnostics);
  }

  private void add(Diagnostic diagnostic) {
    said.add(diagnostic);
  }

  /**
   * A key that means nothing.
   *
   * @return the key that was probably meant
   */
  Optional<String> unknownKey(YamlNode.Scalar key, String owner, Collection<String> allowed) {
    Diagnostic diagnostic =
        Diagnostic.error(
                "unknown-key",
                Tier.STRUCTURE,
                key.span(),
                owner + " has no key \"" + key.text() + "\"")
            .fact("its keys", String.join(", ", allowed))
            .because("nobody would carry out what it says.");
    Optional<String> near = Nearest.to(key.text(), allowed);
    add(
        near.isPresent()
            ? diagnostic
                .help("did you mean " + near.get() + "? If not, delete it.")
                .fix("write " + near.get(), key.span(), near.get(), true)
            : diagnostic.help("delete it, or write the key that was meant."));
    return near;
  }

  /** A name that means nothing; however often it is used, it is one mistake. */
  void unknownName(YamlNode.Scalar name, String what, Collection<String> known) {
    nameless
        .computeIfAbsent(
            List.of(what, name.text()),
            key -> new Nameless(what, name, List.copyOf(known), new LinkedHashSet<>()))
        .places()
        .add(name.span());
  }

  /** A name that means nothing, and everywhere it is used. */
  private record Nameless(String what, YamlNode.Scalar name, List<String> known, Set<Span> places) {

    Diagnostic diagnostic() {
      Diagnostic diagnostic =
          Diagnostic.error(
              "unknown-name",
              Tier.NAMES,
              name.span(),
              "no " + what + " is called \"" + name.text() + "\"");
      if (places.size() > 1) {
        diagnostic = diagnostic.fact("used", places.size() + " times");
      }
      diagnostic = diagnostic.because("a name means something only once it is declared.");
      Optional<String> near = Nearest.to(name.text(), known);
      if (near.isPresent()) {
        return diagnostic
            .help("did you mean " + near.get() + "? If not, declare it first.")
            .fix("write " + near.get(), name.span(), near.get(), false);
      }
      return diagnostic.help(
          known.isEmpty() ? "declare it first." : "declare it first, or use " + list(known) + ".");
    }
  }

  void missingKey(Span place, String message, String help) {
    add(Diagnostic.error("missing-key", Tier.STRUCTURE, place, message).help(help));
  }

  /** An aspect that must have a number has none. */
  void missingNumber(YamlNode.Scalar by, String aspect, Span named) {
    add(
        Diagnostic.error(
                "missing-key",
                Tier.STRUCTURE,
                by.span(),
                "aspect \"" + aspect + "\" has no number to call it up by")
            .related(named, "the aspect")
            .help("give it a number in the rulebook, or leave it out with \"aspects\"."));
  }

  void missingFile(Span place, String path, String reason, String help) {
    add(
        Diagnostic.error("missing-file", Tier.SYNTAX, place, path + " cannot be read: " + reason)
            .help(help));
  }

  void wrongType(YamlNode found, String key, String expected) {
    String what =
        found instanceof YamlNode.Mapping
            ? "keys and values"
            : found instanceof YamlNode.Sequence
                ? "a list"
                : found instanceof YamlNode.Scalar scalar && scalar.isNothing()
                    ? "nothing"
                    : "a single value";
    add(
        Diagnostic.error(
                "wrong-type",
                Tier.STRUCTURE,
                found.span(),
                "\"" + key + "\" takes " + expected + ", not " + what)
            .help("write " + expected + "."));
  }

  void badValue(Span span, String message, String help) {
    add(Diagnostic.error("bad-value", Tier.STRUCTURE, span, message).help(help));
  }

  /** A colour that no light has. */
  void noLight(Span x, Span y) {
    add(
        Diagnostic.error(
                "bad-value", Tier.STRUCTURE, x, "no light has x " + x.text() + " and y " + y.text())
            .related(y, "with this y")
            .because(
                "the colours of all light lie between the curve of pure wavelengths and the line of purples that joins its ends (CIE 1931)")
            .help(
                "write CIE 1931 x and y as measured, in this order, and not another pair such as u' and v'."));
  }

  /** A word that is none of a few. */
  void badWord(YamlNode.Scalar found, String key, Collection<String> words) {
    Diagnostic diagnostic =
        Diagnostic.error(
                "bad-value",
                Tier.STRUCTURE,
                found.span(),
                "\"" + key + "\" cannot be \"" + found.text() + "\"")
            .help("write " + list(words) + ".");
    Optional<String> near = Nearest.to(found.text(), words);
    add(
        near.isPresent()
            ? diagnostic.fix("write " + near.get(), found.span(), near.get(), false)
            : diagnostic);
  }

  void duplicateName(Span again, Span first, String message, String help) {
    add(
        Diagnostic.error("duplicate-name", Tier.NAMES, again, message)
            .label("again")
            .related(first, "first")
            .help(help));
  }

  void headCount(Span heads, String form, int places, int found, Span declared) {
    add(
        Diagnostic.error(
                "head-count",
                Tier.STRUCTURE,
                heads,
                "form "
                    + form
                    + " has "
                    + count(places, "place")
                    + " for a head, but "
                    + count(found, "head")
                    + (found == 1 ? " is" : " are")
                    + " listed")
            .related(declared, "the form")
            .because("a crew reads a signal of this form by as many heads.")
            .help("list one head for each place, top to bottom."));
  }

  void ledOverlap(Span place, String name, Span earlierPlace, String earlier, int led) {
    add(
        Diagnostic.error(
                "led-overlap",
                Tier.STRUCTURE,
                place,
                "signals \"" + earlier + "\" and \"" + name + "\" both hang on LED " + led)
            .related(earlierPlace, "\"" + earlier + "\"")
            .because("an LED shows one thing at a time.")
            .help(
                "count the LEDs on the cable from the controller, and mend a \"led\" or a \"gap\"."));
  }

  void commandKeys(Span key, String message, String help) {
    add(
        Diagnostic.error("command-keys", Tier.STRUCTURE, key, message)
            .because("a key without effect looks like a decision that is kept.")
            .help(help));
  }

  /** A colour that an LED of some kind is to show, and nobody said how. */
  void missingDrive(Part part, String colour, Span user) {
    String numbers = part.channels() == 4 ? "[0, 0, 0, 0]" : "[0, 0, 0]";
    if (!driveless.add(List.of(part.name(), colour))) {
      return;
    }
    String last = part.channels() == 4 ? ", blue and white." : " and blue.";
    add(
        Diagnostic.error(
                "missing-key",
                Tier.STRUCTURE,
                part.span(),
                "LEDs of kind \"" + part.name() + "\" are not told how to show \"" + colour + "\"")
            .related(user, "shows it")
            .help(
                "add \""
                    + colour
                    + ": "
                    + numbers
                    + "\" to the colours of "
                    + part.name()
                    + " under leds, with a drive of 0 to 255 for red, green"
                    + last));
  }

  static String count(int number, String noun) {
    String ending = number == 1 ? "" : noun.endsWith("s") ? "es" : "s";
    return number + " " + noun + ending;
  }

  private static String list(Collection<String> names) {
    String shown = names.stream().limit(MOST_SHOWN).collect(Collectors.joining(", "));
    String one = names.size() == 1 ? "" : "one of these: ";
    return names.size() > MOST_SHOWN
        ? one + shown + " and " + (names.size() - MOST_SHOWN) + " more"
        : one + shown;
  }
}
