package dev.doublet.layout.read;

import dev.doublet.diagnostic.Datum;
import dev.doublet.diagnostic.Diagnostic;
import dev.doublet.diagnostic.Tier;
import dev.doublet.source.Nearest;
import dev.doublet.source.Span;
import dev.doublet.syntax.YamlNode;
import java.util.Optional;
import java.util.regex.Pattern;
import java.util.stream.Collectors;

/**
 * What is said of a value that does not fit its key. Each says what cannot be, and what would do in
 * its place.
 */
final class Misfit {
  private static final String COMMENT = "write {write}, and begin the comment with \"#\".";
  private static final Pattern NUMBER = Pattern.compile("[+-]?[0-9]*\\.?[0-9]+");

  private Misfit() {}

  private static Diagnostic wrong(
      String name, Span span, String message, String help, Datum... data) {
    return Diagnostic.error(name, Tier.STRUCTURE, span, message, data).help(help, data);
  }

  /** A value of another sort: a list, say, where a single one must stand. */
  static Diagnostic type(YamlNode found, String key, String expected) {
    String what =
        found instanceof YamlNode.Mapping
            ? "keys and values"
            : found instanceof YamlNode.Sequence
                ? "a list"
                : found instanceof YamlNode.Scalar scalar && scalar.isNothing()
                    ? "nothing"
                    : "a single value";
    return Diagnostic.error(
            "wrong-type",
            Tier.STRUCTURE,
            found.span(),
            "\"{key}\" takes {expected}, not {found}",
            Datum.of("key", key),
            Datum.of("expected", expected),
            Datum.of("found", what))
        .help("write {expected}.", Datum.of("expected", expected));
  }

  /** A list that must not be empty. */
  static Diagnostic empty(YamlNode list, String key, String expected) {
    return wrong(
        "empty-value",
        list.span(),
        "\"{key}\" lists nothing",
        "write {expected}.",
        Datum.of("key", key),
        Datum.of("expected", expected));
  }

  /** A text that is not of the form it must have. */
  static Diagnostic text(YamlNode.Scalar found, String key, String expected) {
    return wrong(
        "malformed-value",
        found.span(),
        "\"{key}\" cannot be \"{value}\"",
        "write {expected}.",
        Datum.of("key", key),
        Datum.of("value", found.text()),
        Datum.of("expected", expected));
  }

  /** A name that nothing can have there. */
  static Diagnostic name(YamlNode.Scalar name, String key, String expected) {
    return wrong(
        "unusable-name",
        name.span(),
        "\"{name}\" cannot stand in \"{key}\"",
        "write {expected}.",
        Datum.of("name", name.text()),
        Datum.of("key", key),
        Datum.of("expected", expected));
  }

  /** A number out of its range, with a unit beside it, or none at all. */
  static Diagnostic number(YamlNode.Scalar found, String key, Takes<?> takes, Measure measure) {
    String text = found.text().strip();
    String cannot = "\"{key}\" cannot be {value}";
    Datum of = Datum.of("key", key);
    Datum value = Datum.of("value", found.span().text());
    Optional<Measure.Said> typed = measure.of(text).filter(s -> takes.accepts(s.number()));
    String point = text.replace(',', '.');
    String bare = bare(text);
    if (typed.isPresent()) {
      String number = typed.get().number();
      return Diagnostic.error(
              "stray-unit",
              Tier.STRUCTURE,
              found.span(),
              cannot + ": it is a plain number" + measure.phrase(),
              of,
              value)
          .help(
              "write {write}"
                  + (same(typed.get(), measure) ? "" : ", as {typed} are {write} {unit}")
                  + '.',
              Datum.of("write", number),
              Datum.of("typed", typed.get().typed()),
              Datum.of("unit", measure.symbol()))
          .fix("write " + number, found.span(), number, typed.get().certain());
    }
    if (!bare.equals(text) && takes.accepts(bare)) {
      return wrong(
          "not-a-number", found.span(), cannot, COMMENT, of, value, Datum.of("write", bare));
    }
    if (!point.equals(text) && takes.accepts(point)) {
      return Diagnostic.error("not-a-number", Tier.STRUCTURE, found.span(), cannot, of, value)
          .help("write {write}, with a point.", Datum.of("write", point))
          .fix("write " + point, found.span(), point, true);
    }
    String guesses =
        measure.guesses(text, takes).stream()
            .map(s -> s.typed() + " would be " + s.number())
            .collect(Collectors.joining(", "));
    return wrong(
        NUMBER.matcher(text).matches() ? "out-of-range" : "not-a-number",
        found.span(),
        cannot,
        "write {expected}" + (guesses.isEmpty() ? "" : "; {would-be}") + '.',
        of,
        value,
        Datum.of("expected", takes.words()),
        Datum.of("would-be", guesses));
  }

  /** A value without what was meant for a comment. */
  private static String bare(String text) {
    return text.replaceFirst("\\s*//.*", "");
  }

  private static boolean same(Measure.Said said, Measure measure) {
    return said.typed().equals(said.number() + ' ' + measure.symbol());
  }

  /** A scale that is no letter and no ratio. */
  static Diagnostic scale(YamlNode.Scalar found) {
    String text = found.text().strip();
    String cannot = "\"{key}\" cannot be {value}";
    Datum of = Datum.of("key", Keys.SCALE.name());
    Datum value = Datum.of("value", found.span().text());
    String spelt =
        Nearest.to(text.replace('0', 'O'), Keys.SCALES.meanings().keySet())
            .or(() -> ratio(text))
            .orElse("");
    boolean sure = text.replace('0', 'O').equalsIgnoreCase(spelt) || ratio(text).isPresent();
    if (spelt.isEmpty()) {
      return wrong(
          "malformed-value",
          found.span(),
          cannot,
          "write {expected}; or how many times smaller the layout is: 87 for 1:87.",
          of,
          value,
          Datum.of("expected", Keys.SCALES.words()));
    } else {
      return Diagnostic.error("malformed-value", Tier.STRUCTURE, found.span(), cannot, of, value)
          .help("write {write}.", Datum.of("write", spelt))
          .fix("write " + spelt, found.span(), spelt, sure);
    }
  }

  /** The number of times in "1:87" or "1/87". */
  private static Optional<String> ratio(String text) {
    return text.matches("1\\s*[:/]\\s*[0-9.]+")
        ? Optional.of(text.replaceAll(".*[:/]\\s*", "")).filter(Keys.RATIO::accepts)
        : Optional.empty();
  }

  /** A colour that no light has. */
  static Diagnostic light(Span x, Span y) {
    return Diagnostic.error(
            "contradiction",
            Tier.STRUCTURE,
            x,
            "no light has x {x} and y {y}",
            Datum.of("x", x.text()),
            Datum.of("y", y.text()))
        .related(y, "with this y")
        .because(
            "the colours of all light lie between the curve of pure wavelengths and the line of purples that joins its ends",
            "CIE 1931")
        .help(
            "write CIE 1931 x and y as measured, in this order, and not another pair such as u' and v'.");
  }

  /** A word that is none of a few. */
  static Diagnostic word(YamlNode.Scalar found, String key, Takes.Word<?> word) {
    Diagnostic diagnostic =
        Diagnostic.error(
            "unknown-word",
            Tier.STRUCTURE,
            found.span(),
            "\"{key}\" cannot be \"{value}\"",
            Datum.of("key", key),
            Datum.of("value", found.text()));
    String bare = bare(found.text());
    if (!bare.equals(found.text()) && word.accepts(bare)) {
      return diagnostic.help(COMMENT, Datum.of("write", bare));
    }
    Optional<String> near = Nearest.to(found.text(), word.meanings().keySet());
    String help = "write {expected}.";
    Datum expected = Datum.of("expected", word.words());
    return near.isPresent()
        ? diagnostic
            .help("did you mean {meant}? If not, " + help, Datum.of("meant", near.get()), expected)
            .fix(
                "write " + near.get(),
                found.span(),
                near.get(),
                Nearest.isSure(found.text(), near.get(), word.meanings().keySet()))
        : diagnostic.help(help, expected);
  }
}
