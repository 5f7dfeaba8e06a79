package dev.doublet.layout.read;

import dev.doublet.bus.Accessory;
import dev.doublet.diagnostic.Datum;
import dev.doublet.diagnostic.Diagnostic;
import dev.doublet.diagnostic.Fix;
import dev.doublet.diagnostic.Label;
import dev.doublet.diagnostic.Severity;
import dev.doublet.diagnostic.Shortlist;
import dev.doublet.diagnostic.Tier;
import dev.doublet.layout.Part;
import dev.doublet.layout.Pinning;
import dev.doublet.layout.Spelling;
import dev.doublet.layout.State;
import dev.doublet.rulebook.Aspect;
import dev.doublet.source.Nearest;
import dev.doublet.source.SourceReader;
import dev.doublet.source.Span;
import dev.doublet.syntax.YamlNode;
import dev.doublet.syntax.YamlText;
import java.util.Collection;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.function.Supplier;
import java.util.stream.Collectors;
import java.util.stream.Stream;

/**
 * Gathers what is wrong with a layout, each mistake once. It is long because it keeps the wording
 * of them all in one place, but of values that do not fit their key: {@link Misfit}.
 */
final class Complaints {
  private final Set<Diagnostic> said = new LinkedHashSet<>();
  private final Set<Span> told = new HashSet<>();
  private final Map<List<String>, Nameless> nameless = new LinkedHashMap<>();
  private final Map<List<Object>, Sharing> sharing = new LinkedHashMap<>();
  private final Set<List<String>> driveless = new HashSet<>();
  private final Set<List<Aspect>> numberless = new HashSet<>();
  private int losses;

  /** Everything said, by place. */
  List<Diagnostic> all() {
    return Shortlist.of(
        Stream.of(
                said.stream(),
                nameless.values().stream().map(Nameless::diagnostic),
                sharing.values().stream().map(Sharing::diagnostic))
            .flatMap(together -> together)
            .toList());
  }

  /** True when nothing can be built. */
  boolean hasErrors() {
    return !nameless.isEmpty()
        || !sharing.isEmpty()
        || said.stream().anyMatch(d -> d.severity() == Severity.ERROR);
  }

  /** Takes what was said before anything was read; nothing more is said at its places. */
  void addAll(List<Diagnostic> diagnostics) {
    said.addAll(diagnostics);
    diagnostics.forEach(d -> told.add(d.primary().span()));
  }

  /** Says of something that it is wrong, so that nothing comes of it. */
  void add(Diagnostic diagnostic) {
    say(diagnostic);
    lose();
  }

  private void say(Diagnostic diagnostic) {
    if (!told.contains(diagnostic.primary().span())) {
      said.add(diagnostic);
    }
  }

  /** Counts a loss of which something was said, or is being said. */
  void lose() {
    losses++;
  }

  /** What was made without any loss; empty when something was lost meanwhile. */
  <T> Optional<T> lossless(Supplier<Optional<T>> making) {
    int before = losses;
    Optional<T> made = making.get();
    return losses == before ? made : Optional.empty();
  }

  /**
   * A key that means nothing in its place.
   *
   * @param among the keys that stand beside it
   * @return the key that was probably meant
   */
  Optional<String> unknownKey(YamlNode.Scalar key, Place place, YamlNode.Mapping among) {
    Diagnostic diagnostic =
        Diagnostic.error(
                "unknown-key",
                Tier.STRUCTURE,
                key.span(),
                "{place} has no key \"{key}\"",
                Datum.of("place", place.noun()),
                Datum.of("key", key.text()))
            .fact("its keys", String.join(", ", place.words()))
            .because("nobody would carry out what it says.");
    Optional<String> whole = cutByComma(key, among);
    if (whole.isPresent()) {
      say(
          diagnostic.help(
              "write {number}: between braces a comma ends a value.",
              Datum.of("number", whole.get())));
      return Optional.empty();
    }
    List<String> homes =
        Keys.PLACES.stream()
            .filter(other -> other.key(key.text()).isPresent())
            .map(Place::noun)
            .toList();
    if (!homes.isEmpty()) {
      say(
          diagnostic.help(
              "it is a key of {places}: say it there, or delete it.", Datum.of("places", homes)));
      return Optional.empty();
    }
    Optional<String> near = Nearest.to(key.text(), place.words());
    if (near.isEmpty()) {
      say(diagnostic.help("delete it, or write the key that was meant."));
      return near;
    }
    String meant = near.get();
    Diagnostic guessed =
        diagnostic.help("did you mean {meant}? If not, delete it.", Datum.of("meant", meant));
    boolean twice = among.entries().stream().anyMatch(e -> e.key().text().equals(meant));
    boolean sure = Nearest.isSure(key.text(), meant, place.words());
    say(twice ? guessed : guessed.fix("write " + meant, key.span(), meant, sure));
    return near;
  }

  /** How to write the number of which a key is what stands behind a comma. */
  private static Optional<String> cutByComma(YamlNode.Scalar key, YamlNode.Mapping among) {
    return among.entries().stream()
        .map(YamlNode.Entry::value)
        .filter(value -> value.span().end() + 1 == key.span().start())
        .map(value -> value.span().text())
        .filter(before -> (before + key.text()).matches("[0-9]+"))
        .map(before -> thousands(before, key.text()) + before + '.' + key.text())
        .findFirst();
  }

  /** Three digits behind a comma may be thousands. */
  private static String thousands(String before, String behind) {
    return behind.length() == 3 ? before + behind + " or " : "";
  }

  /**
   * Keys that a place must have.
   *
   * @param who what lacks them: "controller \"west\""
   */
  void missingKeys(Span span, String who, List<Key<?>> keys) {
    List<String> wanted =
        keys.stream().map(k -> '"' + k.name() + ": \" (" + wanted(k) + ')').toList();
    String instead =
        keys.stream()
            .map(Key::instead)
            .filter(other -> !other.isEmpty())
            .distinct()
            .map(other -> ", or \"" + other + ": \" in place of that")
            .collect(Collectors.joining());
    String names =
        keys.stream().map(k -> '"' + k.name() + '"').collect(Collectors.joining(" and no "));
    missingKey(
        span,
        "{place} has no " + names,
        "add {wanted}" + instead + '.',
        Datum.of("wanted", wanted),
        Datum.of("place", who),
        Datum.of("keys", keys.stream().map(k -> k.name()).toList()));
  }

  private static String wanted(Key<?> key) {
    String help = key.instead().isEmpty() ? key.help() : key.help().split(";")[0];
    return key.takes() instanceof Takes.Word<?> word ? word.words() : inSentence(help);
  }

  /** A sentence of its own as part of another. */
  private static String inSentence(String sentence) {
    String bare = sentence.endsWith(".") ? sentence.substring(0, sentence.length() - 1) : sentence;
    boolean word = bare.length() > 1 && Character.isLowerCase(bare.charAt(1));
    return word ? Character.toLowerCase(bare.charAt(0)) + bare.substring(1) : bare;
  }

  /** A name that means nothing; however often it is used, it is one mistake. */
  void unknownName(YamlNode.Scalar name, String what, Collection<String> known) {
    lose();
    nameless
        .computeIfAbsent(
            List.of(what, name.text()),
            key -> new Nameless(what, name, List.copyOf(known), new LinkedHashSet<>()))
        .places()
        .add(name);
  }

  /** A name that means nothing, and everywhere it is used. */
  private record Nameless(
      String what, YamlNode.Scalar name, List<String> known, Set<YamlNode.Scalar> places) {

    Diagnostic diagnostic() {
      Diagnostic diagnostic =
          Diagnostic.error(
              "unknown-name",
              Tier.NAMES,
              name.span(),
              "no {kind} is called \"{name}\"",
              Datum.of("kind", what),
              Datum.of("name", name.text()));
      if (places.size() > 1) {
        diagnostic = diagnostic.fact("used", places.size() + " times");
      }
      diagnostic = diagnostic.because("a name means something only once it is declared.");
      Optional<String> near = Nearest.to(name.text(), known);
      if (near.isPresent()) {
        return diagnostic
            .help("did you mean {meant}? If not, declare it first.", Datum.of("meant", near.get()))
            .fix(
                new Fix(
                    "write " + near.get(),
                    places.stream()
                        .map(p -> new Fix.Edit(p.span(), YamlText.like(p, near.get())))
                        .toList(),
                    Nearest.isSure(name.text(), near.get(), known)));
      }
      if (known.isEmpty()) {
        return diagnostic.help("declare it first.");
      }
      String these = known.size() == 1 ? "" : "one of these: ";
      return diagnostic.help(
          "declare it first, or use " + these + "{known}.", Datum.of("known", known));
    }
  }

  void missingKey(Span place, String message, String help, Datum... data) {
    add(Diagnostic.error("missing-key", Tier.STRUCTURE, place, message, data).help(help, data));
  }

  /**
   * Aspects that must have a number have none: one mistake, however many commands need it.
   *
   * @param numbers what to give them
   */
  void missingNumbers(Span by, List<Aspect> aspects, AspectNumbers numbers) {
    lose();
    if (!numberless.add(aspects)) {
      return;
    }
    boolean one = aspects.size() == 1;
    Diagnostic missing =
        Diagnostic.error(
                "missing-key",
                Tier.STRUCTURE,
                by,
                one
                    ? "aspect \"{aspects}\" has no number to call it up by"
                    : "aspects \"{aspects}\" have no number to call them up by",
                Datum.of("aspects", aspects.stream().map(Aspect::name).toList()))
            .related(aspects.get(0).span(), one ? "the aspect" : "the first of them")
            .help(
                "give {numbers} in the rulebook, or leave "
                    + (one ? "it" : "them")
                    + " out with \"aspects\".",
                Datum.of("numbers", numbers.each()));
    add(numbers.fix().map(missing::fix).orElse(missing));
  }

  /** A value that calls up an aspect whose number is another. */
  void otherNumber(YamlNode.Scalar value, State state) {
    Diagnostic contradiction =
        Diagnostic.error(
                "contradiction",
                Tier.STRUCTURE,
                value.span(),
                "\"{state}\" is value {value} here, and number {number} in "
                    + (state.aspect().isPresent() ? "the rulebook" : "\"shows\""),
                Datum.of("state", state.name()),
                Datum.of("value", value.text()),
                Datum.of("number", state.number()))
            .because("what is programmed to send the one would call up something else.")
            .help(
                "give it its number {value} back; or write {number} here, and program again what sends it.",
                Datum.of("value", value.text()),
                Datum.of("number", state.number()));
    add(
        state
            .aspect()
            .map(aspect -> contradiction.related(aspect.span(), "the aspect"))
            .orElse(contradiction));
  }

  /** A signal gives its heads more addresses than they take. */
  void addressesLeft(Span addresses, int left) {
    wrong(
        "contradiction",
        addresses,
        "\"{key}\" gives {left} more than the heads take that say none of their own",
        "list as many as they take, top to bottom.",
        Datum.of("key", Keys.ADDRESSES.name()),
        Datum.of("left", left));
  }

  /** A signal gives its heads fewer addresses than they take. */
  void addressesLack(Span addresses, String head) {
    wrong(
        "contradiction",
        addresses,
        "\"{key}\" has none left for head \"{head}\"",
        "list as many as the heads take that say none of their own, top to bottom.",
        Datum.of("key", Keys.ADDRESSES.name()),
        Datum.of("head", head));
  }

  /**
   * A pinned layout does not say an address or values. There is no sure mend: only who wrote it
   * knows whether they were lost, or are new.
   */
  void unpinned(Pinning.Automatic missing) {
    add(
        Diagnostic.error(
                "unpinned-number",
                Tier.STRUCTURE,
                missing.span(),
                "this layout is pinned, and "
                    + (missing.addresses() > 0 ? "an address" : "what values call up")
                    + " is not said here")
            .because(
                "what was programmed must not move, and only what is written stays where it is.")
            .help(
                "write what was said here before, or add \"{write}\" where nothing was; doublet pin"
                    + " adds that.",
                Datum.of("write", missing.writing()))
            .fix(new Fix("write " + missing.writing(), missing.edits(), false)));
  }

  /**
   * A file that cannot be read.
   *
   * @param usual what to do, where the reason does not say
   */
  void unreadable(Span place, String path, SourceReader.Unreadable reason, String usual) {
    String message = path + " cannot be read: " + reason.getMessage();
    add(Diagnostic.error(reason.finding(), Tier.SYNTAX, place, message).help(reason.remedy(usual)));
  }

  /** Something that stands twice in a list where each may stand once. */
  void listedTwice(YamlNode.Scalar again, Span first, String key) {
    duplicateName(
        again.span(),
        first,
        "\"{key}\" lists \"{value}\" twice",
        Takes.Whole.digits(again.text()).isPresent()
            ? "write another in place of one of the two."
            : "delete one of the two.",
        Datum.of("key", key),
        Datum.of("value", again.text()));
  }

  /**
   * What is written can be read, and cannot be so.
   *
   * @param name the name of the finding
   */
  void wrong(String name, Span span, String message, String help, Datum... data) {
    add(Diagnostic.error(name, Tier.STRUCTURE, span, message, data).help(help, data));
  }

  /** Two names of which only the capital letters differ. */
  private void alikeButForCase(String what, YamlNode.Scalar name, YamlNode.Scalar first) {
    boolean inC = Spelling.of(name.text()).equals(Spelling.of(first.text()));
    duplicateName(
        name.span(),
        first.span(),
        what + " {first} and {second} differ only in capital letters",
        inC
            ? "rename one of them: in the header for C they are one, and spoken they are too."
            : "rename one of them: spoken they are one.",
        Datum.of("first", first.text()),
        Datum.of("second", name.text()));
  }

  /** A board that no signal is plugged into, as a signal that says its metres stands elsewhere. */
  void idleBoard(Span board, String name) {
    say(
        Diagnostic.of(
                "wrong-count",
                Tier.STRUCTURE,
                Severity.WARNING,
                board,
                "no signal is plugged into board {board}",
                Datum.of("board", name))
            .because("a signal that says its \"metres\" hangs on the cable, not on a board.")
            .help(
                "leave out the \"metres\" of the signals that are plugged in, or delete the board."));
  }

  /** A name with a picture in it, which costs nothing but who has to type it. */
  void pictured(YamlNode.Scalar name) {
    say(
        Diagnostic.of(
                "unusable-name",
                Tier.STRUCTURE,
                Severity.WARNING,
                name.span(),
                "the name \"{name}\" has a picture in it",
                Datum.of("name", name.text()))
            .because("throttles, labels and terminals show it each in another way, or not at all.")
            .help("name it with letters and digits."));
  }

  /** Two names that are one where firmware is compiled. */
  void speltAlike(String what, YamlNode.Scalar name, YamlNode.Scalar first, String spelling) {
    if (name.text().equalsIgnoreCase(first.text())) {
      alikeButForCase(what, name, first);
      return;
    }
    duplicateName(
        name.span(),
        first.span(),
        what + " \"{first}\" and \"{second}\" are both spelt {spelling} in the header for C",
        "rename one of them.",
        Datum.of("first", first.text()),
        Datum.of("second", name.text()),
        Datum.of("spelling", spelling));
  }

  /** Two things of one name. */
  void calledAlike(String what, YamlNode.Scalar name, YamlNode.Scalar first, String called) {
    duplicateName(
        name.span(),
        first.span(),
        "two " + what + " are called \"{name}\"",
        "rename one of them.",
        Datum.of("name", called));
  }

  void duplicateName(Span again, Span first, String message, String help, Datum... data) {
    add(
        Diagnostic.error("duplicate-name", Tier.NAMES, again, message, data)
            .label("again")
            .related(first, "first")
            .help(help, data));
  }

  void headCount(Span heads, String form, int places, int found, Span declared) {
    add(
        Diagnostic.error(
                "head-count",
                Tier.STRUCTURE,
                heads,
                "form {form} has {places} for a head, but {heads} "
                    + (found == 1 ? "is" : "are")
                    + " listed",
                Datum.of("form", form),
                Datum.count("places", places, "place"),
                Datum.count("heads", found, "head"))
            .related(declared, "the form")
            .because("a crew reads a signal of this form by as many heads.")
            .help("list one head for each place, top to bottom."));
  }

  /** An LED so far along the cable that nobody solders it. */
  void farAway(Span led, int told, int gap) {
    add(
        Diagnostic.error(
                "far-led",
                Tier.STRUCTURE,
                led,
                "LED {led} lies {gap} LEDs beyond the signal before",
                Datum.of("led", told),
                Datum.of("gap", gap))
            .because("so many LEDs in a row of which none is a signal's are a slip more often.")
            .help(
                "count the LEDs on the cable from the controller; if it is so, put \"{write}\" before the signal in place of its \"led\".",
                Datum.of("write", "- {gap: " + gap + "}"),
                Datum.of("gap", gap)));
  }

  /** A signal that the longest chain has no LEDs for. */
  void chainTooLong(Span place, String name, int led) {
    wrong(
        "out-of-range",
        place,
        "signal \"{signal}\" would need LED {led}",
        "a chain has at most {most} LEDs: move some signals to another.",
        Datum.of("signal", name),
        Datum.of("led", led),
        Datum.of("most", Keys.MOST_LEDS));
  }

  /** A signal that hangs on an LED of an earlier one. */
  void ledOverlap(Span place, String name, Span earlierPlace, String earlier, int led) {
    sharing
        .computeIfAbsent(
            List.of(earlierPlace, led),
            key -> new Sharing(earlierPlace, earlier, led, new LinkedHashMap<>()))
        .later()
        .put(place, name);
    lose();
  }

  /** An LED that is a signal's, and by their places the later ones that hang on it as well. */
  private record Sharing(Span place, String signal, int led, Map<Span, String> later) {

    Diagnostic diagnostic() {
      List<Span> places = List.copyOf(later.keySet());
      List<String> signals = Stream.concat(Stream.of(signal), later.values().stream()).toList();
      return Diagnostic.error(
              "led-overlap",
              Tier.STRUCTURE,
              places.get(0),
              "signals \"{signals}\" "
                  + (signals.size() == 2 ? "both" : "all")
                  + " hang on LED {led}",
              Datum.of("signals", signals),
              Datum.of("led", led))
          .related(place, "\"{signal}\"", Datum.of("signal", signal))
          .alsoAt(places.stream().skip(1).map(again -> new Label(again, "and here")).toList())
          .because("an LED shows one thing at a time.")
          .help(
              "count the LEDs on the cable from the controller, and mend a \"led\" or a \"gap\".");
    }
  }

  /**
   * Addresses go on from the one before until there are none.
   *
   * @param written the last address that the file gives, or the signal when it gives none
   * @param user the signal that needs one more
   */
  void addressesRunOut(Span written, Span user, String bus, int needed) {
    Diagnostic diagnostic =
        Diagnostic.error(
                "out-of-range",
                Tier.STRUCTURE,
                written,
                "bus \"{bus}\" would need address {address}",
                Datum.of("bus", bus),
                Datum.of("address", needed))
            .because(
                "addresses go on from the signal before, and end at " + Accessory.HIGHEST + ".")
            .help("choose a lower one, or use another bus.");
    add(written.equals(user) ? diagnostic : diagnostic.related(user, "would get it"));
  }

  void commandKeys(Span key, String message, String help, Datum... data) {
    add(
        Diagnostic.error("command-keys", Tier.STRUCTURE, key, message, data)
            .because("a key without effect looks like a decision that is kept.")
            .help(help, data));
  }

  /** A colour that an LED of some kind is to show, and nobody said how. */
  void missingDrive(Part part, String colour, Span user) {
    String numbers = part.channels() == 4 ? "[0, 0, 0, 0]" : "[0, 0, 0]";
    lose();
    if (!driveless.add(List.of(part.name(), colour))) {
      return;
    }
    String last = part.channels() == 4 ? ", blue and white." : " and blue.";
    add(
        Diagnostic.error(
                "missing-key",
                Tier.STRUCTURE,
                part.span(),
                "LEDs of kind \"{kind}\" are not told how to show \"{colour}\"",
                Datum.of("kind", part.name()),
                Datum.of("colour", colour))
            .related(user, "shows it")
            .help(
                "add \"{write}\" to the colours of {kind} under leds, with a drive of 0 to 255 for red,"
                    + " green"
                    + last,
                Datum.of("write", colour + ": " + numbers),
                Datum.of("kind", part.name())));
  }
}
