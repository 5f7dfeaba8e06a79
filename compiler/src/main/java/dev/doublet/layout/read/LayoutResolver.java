package dev.doublet.layout.read;

import dev.doublet.diagnostic.Acceptance;
import dev.doublet.diagnostic.Datum;
import dev.doublet.diagnostic.Outcome;
import dev.doublet.layout.Board;
import dev.doublet.layout.Bus;
import dev.doublet.layout.Chain;
import dev.doublet.layout.Chip;
import dev.doublet.layout.Controller;
import dev.doublet.layout.Kind;
import dev.doublet.layout.Layout;
import dev.doublet.layout.Pinning;
import dev.doublet.layout.Servo;
import dev.doublet.layout.Signal;
import dev.doublet.layout.Spelling;
import dev.doublet.layout.Unit;
import dev.doublet.layout.Viewing;
import dev.doublet.rulebook.Rulebook;
import dev.doublet.rulebook.RulebookResolver;
import dev.doublet.source.SourceFile;
import dev.doublet.source.SourceReader;
import dev.doublet.source.Span;
import dev.doublet.syntax.YamlNode;
import dev.doublet.syntax.YamlReader;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.TreeMap;
import java.util.stream.Stream;

/** Makes a layout of a layout file and its rulebook. */
public final class LayoutResolver {
  private final SourceReader reader;
  private final Complaints complaints = new Complaints();

  /** Of a module, the book of the layout that uses it. */
  private final Optional<Rulebook> meetsBook;

  private LayoutResolver(SourceReader reader, Optional<Rulebook> meetsBook) {
    this.reader = reader;
    this.meetsBook = meetsBook;
  }

  /**
   * Reads a layout file and the rulebook it names.
   *
   * @param path the layout file, as the reader knows it
   * @return what could be read of the layout, with whatever was said of it and of its rulebook;
   *     nothing when there is no layout at all
   */
  public static Outcome<Layout> resolve(String path, SourceReader reader) {
    return new LayoutResolver(reader, Optional.empty()).resolve(path);
  }

  private Outcome<Layout> resolve(String path) {
    SourceFile file;
    try {
      file = reader.read(path);
    } catch (SourceReader.Unreadable fault) {
      complaints.unreadable(
          new SourceFile(path, "").span(0, 0), path, fault, "give the path of a layout file.");
      return Outcome.failed(complaints.all());
    }
    Outcome<YamlNode> yaml = YamlReader.read(file);
    complaints.addAll(yaml.diagnostics());
    Optional<Layout> layout = yaml.value().flatMap(root -> layout(path, root));
    return layout
        .map(read -> Outcome.of(read, complaints.all()))
        .orElseGet(() -> Outcome.failed(complaints.all()));
  }

  private Optional<Layout> layout(String path, YamlNode root) {
    if (root instanceof YamlNode.Unread) {
      return Optional.empty();
    }
    if (!(root instanceof YamlNode.Mapping mapping)) {
      complaints.add(Misfit.type(root, "layout", "keys with values"));
      return Optional.empty();
    }
    Span line = Section.first(mapping);
    Section said = Section.nameless(mapping, Keys.LAYOUT, line, complaints);
    if (meetsBook.isPresent() && said.says(Keys.USES)) {
      // Modules of the layout that uses it would be there twice.
      complaints.wrong(
          "contradiction",
          said.entry(Keys.USES).orElseThrow().key().span(),
          "a module uses no modules itself",
          "name them all in the layout that uses this one.");
      return Optional.empty();
    }
    Rulebook book = rulebook(path, said);
    BookNames names = new BookNames(book, complaints);
    Buses buses = Buses.read(said, complaints);
    Parts parts = Parts.read(said, book, names, complaints);
    Kind.Otherwise otherwise =
        said.read(Keys.OTHERWISE)
            .orElse(said.maySay(Keys.OTHERWISE) ? Kind.Otherwise.UNREAD : Kind.Otherwise.UNSAID);
    Commands commands = new Commands(buses, names, otherwise, book, complaints);
    Sizes sizes = Sizes.read(said, complaints);
    Declared<Chip> chips = Chips.read(said, names, complaints);
    Designs designs = new Designs(book, names, sizes, chips, commands, complaints);
    Pins pins = new Pins(said.read(Keys.NUMBERING).orElse(false));
    Listening listening = new Listening(pins, complaints);
    Servos servos = new Servos(complaints);
    Walk.Ground ground =
        new Walk.Ground(
            kinds(said, designs),
            designs,
            listening,
            servos,
            pins,
            complaints,
            Section.silent(line, complaints));
    Chains chains = new Chains(parts, Powering.read(said, complaints), names, ground);
    String title = said.read(Keys.TITLE).map(YamlNode.Scalar::text).orElse("");
    List<Controller> controllers = controllers(said, chains);
    servos.complainOfIdle();
    Modules modules = modules(said, path, book, buses.all(), controllers);
    Pinning pinning = pins.made(said, listening);
    if (pinning.pinned() && !complaints.hasErrors()) {
      // Beside another mistake nobody knows what is missing, or what it would be.
      pinning.automatic().forEach(complaints::unpinned);
    }
    double scale = sizes.scale();
    return Optional.of(
        new Layout(
            title,
            book,
            scale,
            viewing(said, scale).orElse(null),
            Pricing.read(said, names, complaints),
            modules.buses(),
            modules.controllers(),
            modules.modules(),
            both(Acceptances.read(said, complaints), modules.acceptances()),
            Set.copyOf(said.read(Keys.COUNT_AS_ERRORS).orElse(List.of())),
            pinning,
            !complaints.hasErrors(),
            LayoutNames.of(mapping, book),
            line));
  }

  /** True for a path of what is read as a layout; anything else is read as a rulebook. */
  public static boolean isLayout(String path) {
    return path.endsWith(".yaml") || path.endsWith(".yml");
  }

  /** The rulebook as far as it could be read; one of which nothing is known where there is none. */
  private Rulebook rulebook(String path, Section said) {
    Optional<YamlNode.Scalar> named = said.read(Keys.RULEBOOK);
    if (named.isEmpty()) {
      return RulebookResolver.unknown(path);
    }
    String target = SourceReader.beside(path, named.get().text());
    if (isLayout(target)) {
      complaints.wrong(
          "malformed-value",
          named.get().span(),
          "a rulebook cannot be {file}, which is read as a layout",
          "write the path of an .aspects file.",
          Datum.of("file", target));
      return RulebookResolver.unknown(target);
    }
    try {
      reader.read(target);
    } catch (SourceReader.Unreadable fault) {
      complaints.unreadable(
          named.get().span(),
          target,
          fault,
          "mend the path: it is read from the folder of this file.");
      return RulebookResolver.unknown(target);
    }
    Outcome<Rulebook> book = RulebookResolver.resolve(target, reader);
    Rulebook read = book.value().orElseThrow();
    if (meetsBook.isPresent()) {
      return meetsBook.filter(b -> isSame(b, read)).orElseGet(() -> otherBook(named.get(), read));
    }
    complaints.addAll(book.diagnostics());
    return read;
  }

  private static boolean isSame(Rulebook one, Rulebook other) {
    return one.title().equals(other.title()) && one.edition() == other.edition();
  }

  private Rulebook otherBook(YamlNode.Scalar named, Rulebook read) {
    complaints.wrong(
        "contradiction",
        named.span(),
        "this module follows {rulebook}, edition {edition}, and the layout that uses it {other-rulebook}, edition {other-edition}",
        "modules of one layout follow one edition of one rulebook: agree on it.",
        Datum.of("rulebook", read.title()),
        Datum.of("edition", read.edition()),
        Datum.of("other-rulebook", meetsBook.orElseThrow().title()),
        Datum.of("other-edition", meetsBook.orElseThrow().edition()));
    return read;
  }

  private Modules modules(
      Section said, String path, Rulebook book, List<Bus> buses, List<Controller> own) {
    return Modules.read(
        said,
        path,
        buses,
        own,
        reader,
        module -> new LayoutResolver(reader, Optional.of(book)).resolve(module),
        complaints);
  }

  private static List<Acceptance> both(List<Acceptance> one, List<Acceptance> other) {
    return Stream.concat(one.stream(), other.stream()).toList();
  }

  /** From where all is looked at; empty when anything of how large it looks could not be read. */
  private static Optional<Viewing> viewing(Section said, double scale) {
    Set<Key<?>> looks =
        Set.of(Keys.VIEWING, Keys.LAMP_SPACING, Keys.LENS, Keys.MODEL_LENS, Keys.EYES);
    boolean read =
        said.isWhole() && looks.stream().allMatch(k -> !said.says(k) || said.read(k).isPresent());
    return read && !Double.isNaN(scale)
        ? Optional.of(
            new Viewing(
                said.read(Keys.VIEWING).orElse(Viewing.METRES),
                said.read(Keys.LAMP_SPACING).orElse(Viewing.LAMP_SPACING),
                said.read(Keys.EYES).orElse(List.of())))
        : Optional.empty();
  }

  private Declared<Section> kinds(Section layout, Designs designs) {
    return Declared.read(
        layout,
        complaints,
        Keys.KINDS,
        "kind",
        (name, mapping) -> {
          Section kind = Section.named(name, mapping, Keys.KIND, complaints);
          if (kind.says(Keys.FORM) && kind.says(Keys.HEADS) && kind.says(Keys.BY)) {
            designs.of(Section.silent(kind.span(), complaints).basedOn(kind), kind);
          }
          return Optional.of(kind);
        });
  }

  private List<Controller> controllers(Section said, Chains chains) {
    List<Controller> controllers = new ArrayList<>();
    Map<String, YamlNode.Scalar> files = new HashMap<>();
    for (Takes.Named<YamlNode.Mapping> named : said.read(Keys.CONTROLLERS).orElse(List.of())) {
      YamlNode.Scalar name = named.name();
      YamlNode.Scalar first = files.putIfAbsent(Controller.prefix(name.text()), name);
      if (first != null) {
        complaints.duplicateName(
            name.span(),
            first.span(),
            ControllerName.clash(first.text(), name.text()),
            "rename one of them.",
            Datum.of("controllers", List.of(name.text(), first.text())));
      }
      named.value().ifPresent(mapping -> controllers.add(controller(name, mapping, chains)));
    }
    return controllers;
  }

  private Controller controller(YamlNode.Scalar name, YamlNode.Mapping mapping, Chains chains) {
    ControllerName.fault(name.text())
        .ifPresent(
            why ->
                complaints.wrong(
                    "unusable-name",
                    name.span(),
                    "a controller cannot be called \"{name}\"",
                    why,
                    Datum.of("name", name.text())));
    Section said = Section.named(name, mapping, Keys.CONTROLLER, complaints);
    List<Chain> strung = new ArrayList<>();
    List<Signal> signals = new ArrayList<>();
    Map<String, YamlNode.Scalar> alike = new HashMap<>();
    for (Takes.Named<YamlNode.Mapping> chain : said.read(Keys.CHAINS).orElse(List.of())) {
      YamlNode.Scalar other = alike.putIfAbsent(Spelling.alike(chain.name().text()), chain.name());
      Optional<Chains.Strung> read =
          chain.value().flatMap(m -> chains.read(chain.name(), m, strung.size()));
      if (other != null) {
        complaints.speltAlike("chains", chain.name(), other, Spelling.of(chain.name().text()));
        continue;
      }
      read.ifPresent(
          s -> {
            strung.add(s.chain());
            signals.addAll(s.signals());
          });
    }
    refuseSharedServos(signals);
    Optional<Board> board = said.read(Keys.BOARD);
    return new Controller(
        name.text(),
        board.orElse(null),
        memory(said, Keys.FLASH, board.map(Board::flash)),
        memory(said, Keys.RAM, board.map(Board::ram)),
        strung,
        signals,
        name.span());
  }

  /** A servo or motor moves one arm. */
  private void refuseSharedServos(List<Signal> signals) {
    Map<Integer, String> movers = new HashMap<>();
    for (Signal signal : signals) {
      Map<String, List<String>> taken = new TreeMap<>();
      for (Unit unit : signal.units()) {
        for (Servo servo : unit.servos()) {
          String first = movers.putIfAbsent(servo.channel(), signal.name());
          if (first != null) {
            taken
                .computeIfAbsent(first, name -> new ArrayList<>())
                .add(Integer.toString(servo.channel()));
          }
        }
      }
      taken.forEach(
          (first, channels) ->
              complaints.wrong(
                  "contradiction",
                  signal.span(),
                  channels.size() == 1
                      ? "channel {channels} moves an arm of {signal} already"
                      : "channels {channels} move arms of {signal} already",
                  "give each arm of a controller a channel of its own.",
                  Datum.of("channels", channels),
                  Datum.of("signal", first)));
    }
  }

  /** What a controller says of its memory, or else its board; null when neither can be told. */
  private static Integer memory(Section said, Key<Integer> key, Optional<Integer> ofBoard) {
    return said.maySay(key) ? said.read(key).orElse(null) : ofBoard.orElse(null);
  }
}
