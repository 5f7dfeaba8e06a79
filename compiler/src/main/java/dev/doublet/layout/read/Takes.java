package dev.doublet.layout.read;

import dev.doublet.source.Mention;
import dev.doublet.syntax.YamlNode;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.regex.Pattern;

/**
 * What the value of a key may be, as data: from it values are read, and the schema and the page of
 * keys are made. It is long because all sorts of values stand here.
 *
 * @param <T> what a value is read as
 */
sealed interface Takes<T> {

  /** In words that follow "write" or "takes": "a whole number from 1 to 100, in percent". */
  String words();

  /** True for a value of this shape, right or wrong: single, list, or keys with values. */
  boolean hasShapeOf(YamlNode node);

  /**
   * Reads a value of this shape. What is wrong with it is complained of.
   *
   * @param key what it is the value of, for messages
   */
  Optional<T> readShaped(YamlNode node, YamlNode.Scalar key, Complaints complaints);

  /** True when a single value with this text would be read without complaint. */
  default boolean accepts(String text) {
    return false;
  }

  /** Reads a value. What is wrong with it is complained of, unless it was when it was parsed. */
  default Optional<T> read(YamlNode node, YamlNode.Scalar key, Complaints complaints) {
    if (node instanceof YamlNode.Unread) {
      complaints.lose();
      return Optional.empty();
    }
    if (hasShapeOf(node)) {
      return readShaped(node, key, complaints);
    }
    complaints.add(Misfit.type(node, key.text(), words()));
    return Optional.empty();
  }

  /** A single value, which a few words or some digits are. */
  sealed interface Single<T> extends Takes<T> {

    /** The value that a text stands for; empty when it stands for none. */
    Optional<T> parse(YamlNode.Scalar text);

    /** Says what is wrong with a text that stands for no value. */
    void complain(YamlNode.Scalar text, String key, Complaints complaints);

    @Override
    default boolean hasShapeOf(YamlNode node) {
      return node instanceof YamlNode.Scalar scalar && !scalar.isNothing();
    }

    @Override
    default Optional<T> readShaped(YamlNode node, YamlNode.Scalar key, Complaints complaints) {
      YamlNode.Scalar text = (YamlNode.Scalar) node;
      Optional<T> value = parse(text);
      if (value.isEmpty()) {
        complain(text, key.text(), complaints);
      }
      return value;
    }
  }

  /**
   * A name or a text.
   *
   * @param words what it is: "the name of a form"
   * @param pattern what it must match as a whole; empty where anything will do
   * @param usual what an editor may offer of a text that means something only to a later stage
   * @param names what it may name; nothing for a text that is no name
   * @param declares true where the name is given its meaning
   */
  record Text(
      String words, String pattern, List<String> usual, Set<Mention.Kind> names, boolean declares)
      implements Single<YamlNode.Scalar> {
    /** Any text. */
    Text(String words) {
      this(words, "");
    }

    /** A text that matches a pattern. */
    Text(String words, String pattern) {
      this(words, pattern, List.of());
    }

    /** A text of which some are usual. */
    Text(String words, String pattern, List<String> usual) {
      this(words, pattern, usual, Set.of(), false);
    }

    /** The same text as the name of something that is declared elsewhere. */
    Text using(Mention.Kind... kinds) {
      return new Text(words, pattern, usual, Set.of(kinds), false);
    }

    /** The same text as the name that something is given. */
    Text declaring(Mention.Kind kind) {
      return new Text(words, pattern, usual, Set.of(kind), true);
    }

    @Override
    public boolean accepts(String text) {
      return pattern.isEmpty() || Pattern.matches(pattern, text);
    }

    @Override
    public Optional<YamlNode.Scalar> parse(YamlNode.Scalar text) {
      return accepts(text.text()) ? Optional.of(text) : Optional.empty();
    }

    @Override
    public void complain(YamlNode.Scalar text, String key, Complaints complaints) {
      complaints.add(Misfit.text(text, key, words));
    }
  }

  /** A whole number. */
  record Whole(int least, int most, Measure measure) implements Single<Integer> {
    private static final int MOST_DIGITS = 9;

    @Override
    public String words() {
      return "a whole number from " + least + " to " + most + measure.phrase();
    }

    @Override
    public boolean accepts(String text) {
      return digits(text).filter(number -> number >= least && number <= most).isPresent();
    }

    @Override
    public Optional<Integer> parse(YamlNode.Scalar text) {
      return accepts(text.text()) ? digits(text.text()) : Optional.empty();
    }

    @Override
    public void complain(YamlNode.Scalar text, String key, Complaints complaints) {
      complaints.add(Misfit.number(text, key, this, measure));
    }

    /** Decimal digits alone as a number; empty for anything else. */
    static Optional<Integer> digits(String text) {
      boolean digits = text.chars().allMatch(c -> c >= '0' && c <= '9');
      return digits && !text.isEmpty() && text.length() <= MOST_DIGITS
          ? Optional.of(Integer.parseInt(text))
          : Optional.empty();
    }
  }

  /**
   * A number with decimals.
   *
   * @param above true when the least number itself is too little
   */
  record Decimal(double least, boolean above, double most, Measure measure)
      implements Single<Double> {
    private static final Pattern DIGITS = Pattern.compile("[0-9]{1,9}(\\.[0-9]{1,9})?");

    @Override
    public String words() {
      return "a number "
          + (above ? "above " : "from ")
          + shortest(least)
          + (above ? ", at most " : " to ")
          + shortest(most)
          + measure.phrase();
    }

    @Override
    public boolean accepts(String text) {
      if (!DIGITS.matcher(text).matches()) {
        return false;
      }
      double number = Double.parseDouble(text);
      return (above ? number > least : number >= least) && number <= most;
    }

    @Override
    public Optional<Double> parse(YamlNode.Scalar text) {
      return accepts(text.text()) ? Optional.of(Double.parseDouble(text.text())) : Optional.empty();
    }

    @Override
    public void complain(YamlNode.Scalar text, String key, Complaints complaints) {
      complaints.add(Misfit.number(text, key, this, measure));
    }

    private static String shortest(double number) {
      return number == Math.rint(number) ? Long.toString((long) number) : Double.toString(number);
    }
  }

  /** One of a few words, in the order to list them, with what each means. */
  record Word<T>(Map<String, T> meanings) implements Single<T> {
    /** The word for a meaning. */
    String wordFor(T meaning) {
      return meanings.keySet().stream()
          .filter(word -> meanings.get(word).equals(meaning))
          .findFirst()
          .orElseThrow();
    }

    @Override
    public String words() {
      return (meanings.size() == 1 ? "" : "one of these: ") + String.join(", ", meanings.keySet());
    }

    @Override
    public boolean accepts(String text) {
      return meanings.containsKey(text);
    }

    @Override
    public Optional<T> parse(YamlNode.Scalar text) {
      return Optional.ofNullable(meanings.get(text.text()));
    }

    @Override
    public void complain(YamlNode.Scalar text, String key, Complaints complaints) {
      complaints.add(Misfit.word(text, key, this));
    }
  }

  /**
   * A list, which counts as not read when any of it is wrong; a name that stands in it twice is
   * told of and counts once.
   *
   * @param least how many it has at least: 0 or 1
   * @param once true when nothing may stand in it twice
   * @param words "a list of plates"
   */
  record Listed<T>(Takes<T> item, int least, boolean once, String words) implements Takes<List<T>> {

    @Override
    public boolean hasShapeOf(YamlNode node) {
      return node instanceof YamlNode.Sequence;
    }

    @Override
    public Optional<List<T>> readShaped(YamlNode node, YamlNode.Scalar key, Complaints complaints) {
      List<YamlNode> items = ((YamlNode.Sequence) node).items();
      if (items.size() < least) {
        complaints.add(Misfit.empty(node, key.text(), words));
        return Optional.empty();
      }
      List<T> values = new ArrayList<>();
      Map<String, YamlNode> seen = new HashMap<>();
      Set<String> told = new HashSet<>();
      boolean fine = true;
      for (YamlNode item : items) {
        YamlNode first =
            once && item instanceof YamlNode.Scalar text
                ? seen.putIfAbsent(text.text(), text)
                : null;
        if (first == null) {
          Optional<T> value = this.item.read(item, key, complaints);
          value.ifPresent(values::add);
          fine &= value.isPresent();
        } else {
          if (told.add(((YamlNode.Scalar) item).text())) {
            complaints.listedTwice((YamlNode.Scalar) item, first.span(), key.text());
          }
          fine &= this.item instanceof Text;
        }
      }
      return fine ? Optional.of(values) : Optional.empty();
    }
  }

  /**
   * A list of which each value counts for itself, so that a wrong one costs no other.
   *
   * @param least how many it has at least: 0 or 1
   * @param words "a list of signals"
   */
  record Each<T>(Takes<T> item, int least, String words) implements Takes<List<Optional<T>>> {

    @Override
    public boolean hasShapeOf(YamlNode node) {
      return node instanceof YamlNode.Sequence;
    }

    @Override
    public Optional<List<Optional<T>>> readShaped(
        YamlNode node, YamlNode.Scalar key, Complaints complaints) {
      List<YamlNode> items = ((YamlNode.Sequence) node).items();
      if (items.size() < least) {
        complaints.add(Misfit.empty(node, key.text(), words));
        return Optional.empty();
      }
      return Optional.of(items.stream().map(i -> item.read(i, key, complaints)).toList());
    }
  }

  /**
   * Values by name.
   *
   * @param names what a name may be
   * @param what "buses by name"
   */
  record ByName<T>(Single<?> names, Takes<T> value, String what) implements Takes<List<Named<T>>> {

    @Override
    public String words() {
      return "keys with values: " + what;
    }

    @Override
    public boolean hasShapeOf(YamlNode node) {
      return node instanceof YamlNode.Mapping;
    }

    @Override
    public Optional<List<Named<T>>> readShaped(
        YamlNode node, YamlNode.Scalar key, Complaints complaints) {
      List<Named<T>> all = new ArrayList<>();
      for (YamlNode.Entry entry : ((YamlNode.Mapping) node).entries()) {
        boolean named = names.accepts(entry.key().text());
        if (!named) {
          complaints.add(Misfit.name(entry.key(), key.text(), names.words()));
        }
        Optional<T> read = value.read(entry.value(), entry.key(), complaints);
        all.add(new Named<>(entry.key(), entry.value(), named ? read : Optional.empty()));
      }
      return Optional.of(all);
    }
  }

  /**
   * One value with its name.
   *
   * @param node the value as written
   * @param value what it was read as; empty when it, or its name, is wrong
   */
  record Named<T>(YamlNode.Scalar name, YamlNode node, Optional<T> value) {}

  /**
   * The keys of a place.
   *
   * @param places one, or several that tell themselves apart by a key
   * @param words "signals such as {name: W1}"
   */
  record Keyed(List<Place> places, String words) implements Takes<YamlNode.Mapping> {
    /** The keys of one place. */
    Keyed(Place place) {
      this(List.of(place), "keys with values");
    }

    @Override
    public boolean hasShapeOf(YamlNode node) {
      return node instanceof YamlNode.Mapping;
    }

    @Override
    public Optional<YamlNode.Mapping> readShaped(
        YamlNode node, YamlNode.Scalar key, Complaints complaints) {
      return Optional.of((YamlNode.Mapping) node);
    }
  }

  /**
   * One of several sorts of values; whoever reads it must ask which. Two sorts of single values are
   * told apart by nobody else, and not read here.
   */
  record Either(List<Takes<?>> sorts, String words) implements Takes<YamlNode> {

    @Override
    public boolean hasShapeOf(YamlNode node) {
      return sorts.stream().anyMatch(s -> s.hasShapeOf(node));
    }

    @Override
    public Optional<YamlNode> readShaped(
        YamlNode node, YamlNode.Scalar key, Complaints complaints) {
      List<Takes<?>> shaped = sorts.stream().filter(s -> s.hasShapeOf(node)).toList();
      return shaped.size() > 1 || shaped.get(0).read(node, key, complaints).isPresent()
          ? Optional.of(node)
          : Optional.empty();
    }
  }
}
