package dev.doublet.layout.read;

import dev.doublet.colour.Eye;
import dev.doublet.diagnostic.Outcome;
import dev.doublet.layout.Chain;
import dev.doublet.layout.Controller;
import dev.doublet.layout.Kind;
import dev.doublet.layout.Layout;
import dev.doublet.layout.Signal;
import dev.doublet.layout.Viewing;
import dev.doublet.rulebook.Fault;
import dev.doublet.rulebook.Rulebook;
import dev.doublet.rulebook.RulebookResolver;
import dev.doublet.source.SourceFile;
import dev.doublet.source.SourceReader;
import dev.doublet.source.Span;
import dev.doublet.syntax.YamlNode;
import dev.doublet.syntax.YamlReader;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.TreeMap;
import java.util.stream.Collectors;

/** Makes a layout of a layout file and its rulebook. */
public final class LayoutResolver {
  /** What {@code otherwise} can be. */
  static final Map<String, Kind.Otherwise> OTHERWISE =
      new TreeMap<>(
          Map.of("most-restrictive", Kind.Otherwise.MOST_RESTRICTIVE, "keep", Kind.Otherwise.KEEP));

  /** Ratios by letter: NMRA S-1.2 (from memory). */
  private static final Map<String, Double> SCALES =
      new TreeMap<>(Map.of("HO", 87.1, "S", 64.0, "O", 48.0, "TT", 120.0, "N", 160.0, "Z", 220.0));

  /** Eyes that colours may be asked to differ for. */
  static final Map<String, Eye> EYES =
      new TreeMap<>(Map.of("protan", Eye.PROTAN, "deutan", Eye.DEUTAN, "tritan", Eye.TRITAN));

  /** What can fail, in the words of the language. */
  static final Map<String, Fault> FAULTS =
      Arrays.stream(Fault.values())
          .collect(Collectors.toMap(Fault::words, f -> f, (one, other) -> one, TreeMap::new));

  private static final double MOST_METRES = 1_000;
  private static final double MOST_SPACING = 10_000;
  private static final int MOST_BYTES = 1 << 28;
  private static final double MOST_SCALE = 1_000;

  private final SourceReader reader;
  private final Complaints complaints = new Complaints();

  private LayoutResolver(SourceReader reader) {
    this.reader = reader;
  }

  /**
   * Reads a layout file and the rulebook it names.
   *
   * @param path the layout file, as the reader knows it
   * @return the layout with whatever was said of its rulebook; nothing when there is an error
   */
  public static Outcome<Layout> resolve(String path, SourceReader reader) {
    return new LayoutResolver(reader).resolve(path);
  }

  private Outcome<Layout> resolve(String path) {
    SourceFile file;
    try {
      file = reader.read(path);
    } catch (SourceReader.Unreadable fault) {
      complaints.missingFile(
          new SourceFile(path, "").span(0, 0),
          path,
          fault.getMessage(),
          "give the path of a layout file.");
      return Outcome.failed(complaints.all());
    }
    Outcome<YamlNode> yaml = YamlReader.read(file);
    complaints.addAll(yaml.diagnostics());
    Optional<Layout> layout = yaml.value().flatMap(root -> layout(path, root));
    return layout.isPresent() && !complaints.hasErrors()
        ? Outcome.of(layout.get(), complaints.all())
        : Outcome.failed(complaints.all());
  }

  private Optional<Layout> layout(String path, YamlNode root) {
    if (!(root instanceof YamlNode.Mapping mapping)) {
      complaints.wrongType(root, "layout", "keys with values");
      return Optional.empty();
    }
    Span line = Section.first(mapping);
    Section said = Section.of(mapping, Keys.LAYOUT, line, complaints);
    require(said, "layout", "add the line \"layout: \" and the layout's name.");
    require(said, "rulebook", "add the line \"rulebook: \" and the path of an .aspects file.");
    require(said, "controllers", "add \"controllers:\" with at least one.");
    Optional<Rulebook> book = rulebook(path, said);
    if (book.isEmpty()) {
      return Optional.empty();
    }
    Buses buses = Buses.read(said, complaints);
    Parts parts = Parts.read(said, book.get(), complaints);
    Kind.Otherwise otherwise = said.word("otherwise", OTHERWISE).orElse(Kind.Otherwise.UNSAID);
    Commands commands = new Commands(buses, otherwise, complaints);
    Designs designs =
        new Designs(
            book.get(), said.decimal("lens", Designs.MOST_LENS, false), commands, complaints);
    Map<String, Section> kinds = kinds(said, designs);
    Listening listening = new Listening(complaints);
    Powering powering = Powering.read(said, complaints);
    Chains chains = new Chains(parts, powering, kinds, designs, listening, complaints, line);
    String title = said.scalar("layout", "a name").map(YamlNode.Scalar::text).orElse("");
    List<Controller> controllers = controllers(said, chains);
    return Optional.of(
        new Layout(
            title,
            book.get(),
            scale(said),
            viewing(said),
            Pricing.read(said, book.get(), complaints),
            buses.all(),
            controllers,
            Acceptances.read(said, complaints),
            Set.copyOf(words(said, "count-as-errors", FAULTS)),
            line));
  }

  private void require(Section said, String key, String help) {
    if (!said.says(key)) {
      complaints.missingKey(said.place(), "this layout has no \"" + key + "\"", help);
    }
  }

  /** True for a path of what is read as a layout; anything else is read as a rulebook. */
  public static boolean isLayout(String path) {
    return path.endsWith(".yaml") || path.endsWith(".yml");
  }

  private Optional<Rulebook> rulebook(String path, Section said) {
    Optional<YamlNode.Scalar> named = said.scalar("rulebook", "the path of a file");
    if (named.isEmpty()) {
      return Optional.empty();
    }
    String target = SourceReader.beside(path, named.get().text());
    if (isLayout(target)) {
      complaints.badValue(
          named.get().span(),
          "a rulebook cannot be " + target + ", which is read as a layout",
          "write the path of an .aspects file.");
      return Optional.empty();
    }
    try {
      reader.read(target);
    } catch (SourceReader.Unreadable fault) {
      complaints.missingFile(
          named.get().span(),
          target,
          fault.getMessage(),
          "mend the path: it is read from the folder of this file.");
      return Optional.empty();
    }
    Outcome<Rulebook> book = RulebookResolver.resolve(target, reader);
    complaints.addAll(book.diagnostics());
    return book.value();
  }

  private double scale(Section said) {
    Optional<YamlNode.Scalar> scale = said.scalar("scale", "a letter or a number");
    if (scale.isEmpty()) {
      return SCALES.get("HO");
    }
    String text = scale.get().text();
    double ratio = SCALES.containsKey(text) ? SCALES.get(text) : Section.decimal(text);
    if (ratio <= 0 || ratio > MOST_SCALE) {
      complaints.badValue(
          scale.get().span(),
          "\"scale\" cannot be " + scale.get().span().text(),
          "write one of "
              + String.join(", ", SCALES.keySet())
              + ", or how many times smaller the layout is: 87 for 1:87.");
      return SCALES.get("HO");
    }
    return ratio;
  }

  private Viewing viewing(Section said) {
    return new Viewing(
        said.decimal("viewing", MOST_METRES, false).orElse(Viewing.METRES),
        said.decimal("lamp-spacing", MOST_SPACING, false).orElse(Viewing.LAMP_SPACING),
        words(said, "eyes", EYES));
  }

  /** A list of a few words. */
  private <T> List<T> words(Section said, String key, Map<String, T> known) {
    List<T> meant = new ArrayList<>();
    for (YamlNode.Scalar word : said.scalars(key, "a list of names").orElse(List.of())) {
      T meaning = known.get(word.text());
      if (meaning == null) {
        complaints.badWord(word, key, known.keySet());
      } else {
        meant.add(meaning);
      }
    }
    return meant;
  }

  private Map<String, Section> kinds(Section said, Designs designs) {
    Map<String, Section> kinds = new LinkedHashMap<>();
    for (YamlNode.Entry entry :
        said.mapping("kinds").map(YamlNode.Mapping::entries).orElse(List.of())) {
      if (entry.value() instanceof YamlNode.Mapping mapping) {
        Section kind = Section.of(mapping, Keys.KIND, entry.key().span(), complaints);
        kinds.put(entry.key().text(), kind);
        if (kind.says("form") && kind.says("heads") && kind.says("by")) {
          designs.of(Section.silent(kind.place(), complaints).basedOn(kind), kind);
        }
      } else {
        complaints.wrongType(entry.value(), entry.key().text(), "keys with values");
      }
    }
    return kinds;
  }

  private List<Controller> controllers(Section said, Chains chains) {
    List<Controller> controllers = new ArrayList<>();
    Map<String, YamlNode.Scalar> files = new HashMap<>();
    for (YamlNode.Entry entry :
        said.mapping("controllers").map(YamlNode.Mapping::entries).orElse(List.of())) {
      YamlNode.Scalar name = entry.key();
      YamlNode.Scalar first = files.putIfAbsent(name.text().toLowerCase(Locale.ROOT), name);
      if (first != null) {
        complaints.duplicateName(
            name.span(),
            first.span(),
            "the tables of \""
                + name.text()
                + "\" and \""
                + first.text()
                + "\" are one file where case counts for nothing",
            "rename one of them.");
      }
      controller(entry, chains).ifPresent(controllers::add);
    }
    return controllers;
  }

  private Optional<Controller> controller(YamlNode.Entry entry, Chains chains) {
    String name = entry.key().text();
    Span span = entry.key().span();
    if (!(entry.value() instanceof YamlNode.Mapping mapping)) {
      complaints.wrongType(entry.value(), name, "keys with values");
      return Optional.empty();
    }
    if (!name.isBlank() && !name.matches("[A-Za-z0-9][A-Za-z0-9_-]{0,63}")) {
      complaints.badValue(
          span,
          "a controller cannot be called \"" + name + "\"",
          "use letters, digits and hyphens: its table's file is named after it.");
    }
    Section controller = Section.of(mapping, Keys.CONTROLLER, span, complaints);
    for (String key : List.of("flash", "ram", "chains")) {
      if (!controller.says(key)) {
        complaints.missingKey(
            span,
            "controller \"" + name + "\" has no \"" + key + "\"",
            key.equals("chains")
                ? "add \"chains:\" with at least one."
                : "add \"" + key + ": \" and how many bytes of it are left for Doublet.");
      }
    }
    int flash = controller.integer("flash", 0, MOST_BYTES).orElse(0);
    int ram = controller.integer("ram", 0, MOST_BYTES).orElse(0);
    List<Chain> strung = new ArrayList<>();
    List<Signal> signals = new ArrayList<>();
    for (YamlNode.Entry chain :
        controller.mapping("chains").map(YamlNode.Mapping::entries).orElse(List.of())) {
      chains
          .read(chain, strung.size())
          .ifPresent(
              s -> {
                strung.add(s.chain());
                signals.addAll(s.signals());
              });
    }
    return Optional.of(new Controller(name, flash, ram, strung, signals, span));
  }
}
