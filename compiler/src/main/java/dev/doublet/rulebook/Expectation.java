package dev.doublet.rulebook;

import dev.doublet.diagnostic.Words;
import dev.doublet.source.Span;
import java.util.List;
import java.util.stream.Collectors;

/** A case that a rulebook states, to be held against its aspects. */
public sealed interface Expectation {

  /** Where it is written. */
  Span span();

  /** As the language says it, after {@code expect}. */
  String words();

  /**
   * What some pictures mean, each of them.
   *
   * @param form the signal's form
   * @param plates the plates the signal carries, sorted
   * @param pictures what its heads show, top to bottom, each with a choice for every place
   * @param aspect the name of the aspect they mean; empty when they mean nothing
   * @param span where it is written
   */
  record Meaning(
      Form form, List<String> plates, List<List<Choice>> pictures, String aspect, Span span)
      implements Expectation {

    /** Copies the lists and sorts the plates. */
    public Meaning {
      plates = plates.stream().sorted().toList();
      pictures = pictures.stream().map(List::copyOf).toList();
    }

    /** The same once for each number that its letters stand for. */
    public List<Meaning> each(Numbers numbers) {
      List<String> letters =
          pictures.stream()
              .flatMap(List::stream)
              .map(Choice::letter)
              .filter(l -> !l.isEmpty())
              .distinct()
              .toList();
      return numbers.each(letters.size()).stream()
          .map(figures -> new Numerals("", letters, numbers, figures))
          .map(
              n ->
                  new Meaning(
                      form,
                      plates,
                      pictures.stream().map(p -> p.stream().map(n::in).toList()).toList(),
                      n.in(aspect),
                      span))
          .toList();
    }

    /** True when it speaks of a single picture. */
    public boolean isOne() {
      return pictures.size() == 1
          && pictures.get(0).stream().allMatch(c -> c.displays().size() == 1);
    }

    /** What is seen: "red over (green or dark)". */
    public String sight() {
      return pictures.stream()
          .map(p -> p.stream().map(Choice::words).collect(Collectors.joining(" over ")))
          .collect(Collectors.joining(" or "));
    }

    /** On which signals: "on two-head with DV plate". */
    public String place() {
      String with =
          plates.isEmpty()
              ? ""
              : " with "
                  + plates.stream().map(Plate::words).collect(Collectors.joining(", "))
                  + " "
                  + Words.plural(plates.size(), "plate");
      return "on " + form.name() + with;
    }

    @Override
    public String words() {
      return sight()
          + " "
          + place()
          + " means "
          + (aspect.isEmpty() ? "nothing" : "\"" + aspect + "\"");
    }
  }

  /**
   * How two aspects stand to one another.
   *
   * @param first the name of one
   * @param standing how it stands to the other: anything but {@code SAME}
   * @param second the name of the other
   * @param span where it is written
   */
  record Order(String first, Permission.Standing standing, String second, Span span)
      implements Expectation {

    @Override
    public String words() {
      return standing == Permission.Standing.UNKNOWN
          ? "\"" + first + "\" and \"" + second + "\" in no known order"
          : "\"" + first + "\" " + standing.words() + " than \"" + second + "\"";
    }
  }

  /**
   * What an aspect allows, said once more.
   *
   * @param aspect its name
   * @param permission what it is to allow
   * @param span where it is written
   */
  record Allowed(String aspect, Permission permission, Span span) implements Expectation {

    @Override
    public String words() {
      return "\"" + aspect + "\" allows " + permission.words();
    }
  }

  /**
   * Whether one aspect may stand at the signal before another, so that a train that obeys it is
   * ready for the other.
   *
   * @param first the name of the one before
   * @param may false when it must not
   * @param second the name of the one after
   * @param span where it is written
   */
  record Precedence(String first, boolean may, String second, Span span) implements Expectation {

    @Override
    public String words() {
      return "\"" + first + "\" " + (may ? "" : "not ") + "before \"" + second + "\"";
    }
  }
}
