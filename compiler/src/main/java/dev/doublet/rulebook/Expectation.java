package dev.doublet.rulebook;

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
   * What a picture means.
   *
   * @param form the signal's form
   * @param plates the plates the signal carries, sorted
   * @param picture what its heads show, top to bottom
   * @param aspect the name of the aspect it means; empty when it means nothing
   * @param span where it is written
   */
  record Meaning(Form form, List<String> plates, List<Display> picture, String aspect, Span span)
      implements Expectation {

    /** Copies the lists and sorts the plates. */
    public Meaning {
      plates = plates.stream().sorted().toList();
      picture = List.copyOf(picture);
    }

    /** The signal and what it shows: "red over green on two-head with DV plate". */
    public String sight() {
      String with =
          plates.isEmpty()
              ? ""
              : " with " + String.join(", ", plates) + (plates.size() == 1 ? " plate" : " plates");
      return picture.stream().map(Display::words).collect(Collectors.joining(" over "))
          + " on "
          + form.name()
          + with;
    }

    @Override
    public String words() {
      return sight() + " means " + (aspect.isEmpty() ? "nothing" : "\"" + aspect + "\"");
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
}
