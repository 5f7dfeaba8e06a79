package dev.doublet.page;

import com.fasterxml.jackson.core.JsonFactory;
import com.fasterxml.jackson.core.JsonGenerator;
import com.fasterxml.jackson.core.json.JsonWriteFeature;
import dev.doublet.bus.Packet;
import dev.doublet.colour.Die;
import dev.doublet.colour.Xyz;
import dev.doublet.diagnostic.Words;
import dev.doublet.layout.Bus;
import dev.doublet.layout.Chain;
import dev.doublet.layout.Controller;
import dev.doublet.layout.Feed;
import dev.doublet.layout.Kind;
import dev.doublet.layout.Layout;
import dev.doublet.layout.Message;
import dev.doublet.layout.Part;
import dev.doublet.layout.Signal;
import dev.doublet.layout.State;
import dev.doublet.layout.Unit;
import dev.doublet.rulebook.Display;
import dev.doublet.rulebook.HeadType;
import dev.doublet.rulebook.Rhythm;
import dev.doublet.source.Visible;
import dev.doublet.table.Lowering;
import java.io.IOException;
import java.io.StringWriter;
import java.io.UncheckedIOException;
import java.util.ArrayList;
import java.util.Base64;
import java.util.Collection;
import java.util.Collections;
import java.util.IdentityHashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.regex.Pattern;

/**
 * What the script of a layout's page works with, as JSON: the tables as they are written to files,
 * who is who in them, what is sent for each aspect, and what the dies of the LEDs shine. Names are
 * made visible here; what is sent is left as it is, in plain ASCII with escapes.
 */
final class LayoutData {
  /** Where texts are cut, so that the parts recur: joined they are the text. */
  private static final Pattern CUTS =
      Pattern.compile("(?= over | with | of the | is )|(?<= die in )|(?<= stuck lit )");

  private final JsonGenerator json;
  private final Layout layout;
  private final Map<String, byte[]> tables;
  private final List<Part> parts;
  private final List<Kind> kinds;
  private final List<Signal.Build> builds;
  private final Map<Signal, Readings> readings;
  private final List<Readings> sites;
  private final Lights lights;
  private final Map<Xyz, Integer> diodes = new LinkedHashMap<>();
  private final Map<String, Integer> words = new LinkedHashMap<>();

  private LayoutData(JsonGenerator json, Layout layout, Map<String, byte[]> tables) {
    this.json = json;
    this.layout = layout;
    this.tables = tables;
    List<Controller> all = layout.controllers();
    this.parts = once(all.stream().flatMap(c -> c.chains().stream()).map(Chain::part).toList());
    this.kinds = once(all.stream().flatMap(c -> c.units().stream()).map(Unit::kind).toList());
    this.builds = builds(layout);
    this.readings = Readings.of(layout);
    this.lights = new Lights(layout.rulebook());
    this.sites = once(all.stream().flatMap(c -> c.signals().stream()).map(readings::get).toList());
  }

  /** The ways in which signals of a layout are built, each once, in file order. */
  static List<Signal.Build> builds(Layout layout) {
    return once(
        layout.controllers().stream()
            .flatMap(c -> c.signals().stream())
            .map(Signal::build)
            .toList());
  }

  /**
   * The data as JSON that may stand in a page: no part of it is read as a tag.
   *
   * @param tables the bytes of each controller's table, by the controller's name
   */
  static String of(Layout layout, Map<String, byte[]> tables) {
    StringWriter text = new StringWriter();
    JsonFactory ascii = JsonFactory.builder().enable(JsonWriteFeature.ESCAPE_NON_ASCII).build();
    try (JsonGenerator json = ascii.createGenerator(text)) {
      new LayoutData(json, layout, tables).document();
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
    return text.toString().replace("<", "\\u003c");
  }

  private void document() throws IOException {
    json.writeStartObject();
    name("title", layout.title());
    array("buses", layout.buses(), this::bus);
    array("parts", parts, this::part);
    array("kinds", kinds, this::kind);
    array("diodes", List.copyOf(diodes.keySet()), this::light);
    array("sites", sites, this::site);
    array("words", List.copyOf(words.keySet()), json::writeString);
    json.writeNumberField(
        "longest",
        layout.rulebook().rhythms().stream().mapToInt(Rhythm::periodMillis).max().orElse(0));
    array("controllers", layout.controllers(), this::controller);
    json.writeEndObject();
  }

  private void bus(Bus bus) throws IOException {
    json.writeStartObject();
    name("name", bus.name());
    json.writeStringField("speaks", bus.speaks().name());
    json.writeNumberField("firstDecoder", bus.firstDecoder());
    json.writeNumberField("bits", bus.aspectBits());
    json.writeStringField("topics", bus.topics());
    json.writeEndObject();
  }

  /** The order of its bytes, and the light of each die fully driven: X, Y and Z, Y in mcd. */
  private void part(Part part) throws IOException {
    json.writeStartObject();
    json.writeStringField("order", part.order());
    json.writeObjectFieldStart("light");
    for (Die die : part.family().dies()) {
      json.writeFieldName(die.channel().name().substring(0, 1));
      light(die.middle());
    }
    json.writeEndObject();
    json.writeEndObject();
  }

  private void light(Xyz light) throws IOException {
    json.writeStartArray();
    for (double value : List.of(light.x(), light.y(), light.z())) {
      json.writeNumber(value);
    }
    json.writeEndArray();
  }

  private void kind(Kind kind) throws IOException {
    json.writeStartObject();
    json.writeNumberField("leds", kind.leds());
    json.writeNumberField("rest", kind.rest());
    json.writeBooleanField("onApproach", kind.onApproach());
    json.writeNumberField("settles", kind.way().settle());
    array("states", kind.states(), this::state);
    if (!kind.feeds().isEmpty()) {
      lamps(kind);
    }
    json.writeEndObject();
  }

  /** Where each lamp hangs: its LED, or a chip with its output and the diode there. */
  private void lamps(Kind kind) throws IOException {
    List<List<Integer>> lamps = new ArrayList<>(Collections.nCopies(kind.lamps(), List.of()));
    for (int place = 0; place < kind.leds(); place++) {
      Feed feed = kind.feeds().get(place);
      for (int output = 0; output < feed.lamps().size(); output++) {
        int lamp = feed.lamps().get(output);
        if (lamp != Feed.NONE) {
          lamps.set(
              lamp,
              feed.chip().isPresent()
                  ? List.of(place, output, diode(lights.diode(kind, lamp)))
                  : List.of(place));
        }
      }
    }
    array("lamps", lamps, this::numbers);
  }

  private int diode(Xyz light) {
    return diodes.computeIfAbsent(light, l -> diodes.size());
  }

  private void state(State state) throws IOException {
    json.writeStartObject();
    name("name", state.name());
    json.writeNumberField("number", state.number());
    name("words", Display.over(state.picture()));
    json.writeObjectFieldStart("flashing");
    for (int led = 0; led < state.lit().size(); led++) {
      if (!state.lit().get(led).rhythm().isEmpty()) {
        json.writeStringField(Integer.toString(led), state.lit().get(led).rhythm());
      }
    }
    json.writeEndObject();
    json.writeEndObject();
  }

  /**
   * What can fail; and for each picture, by states, pairs of a fault and what comes of it: the
   * verdict, what is read, what covers it, and what is seen. Texts are places in the list of words,
   * one or some.
   */
  private void site(Readings site) throws IOException {
    Map<List<Integer>, Integer> outcomes = new LinkedHashMap<>();
    json.writeStartObject();
    array("faults", site.faults(), this::fault);
    json.writeObjectFieldStart("readings");
    for (var picture : site.byStates().entrySet()) {
      json.writeArrayFieldStart(picture.getKey());
      for (Readings.Reading reading : picture.getValue()) {
        List<Integer> outcome = new ArrayList<>();
        outcome.add(reading.verdict().ordinal());
        outcome.add(word(String.join(" or ", reading.read())));
        outcome.add(word(reading.covered()));
        outcome.addAll(parts(reading.seen()));
        json.writeNumber(site.faults().indexOf(reading.fault()));
        json.writeNumber(outcomes.computeIfAbsent(outcome, o -> outcomes.size()));
      }
      json.writeEndArray();
    }
    json.writeEndObject();
    array("outcomes", List.copyOf(outcomes.keySet()), this::numbers);
    json.writeEndObject();
  }

  /** Its words in parts that recur, how it fails, which LEDs, and more where that is needed. */
  private void fault(Readings.Fault fault) throws IOException {
    json.writeStartArray();
    numbers(parts(fault.words()));
    json.writeNumber(fault.how().ordinal());
    numbers(fault.leds());
    if (!fault.what().isEmpty()) {
      json.writeString(Visible.line(fault.what()));
    }
    json.writeEndArray();
  }

  private void numbers(List<Integer> numbers) throws IOException {
    json.writeStartArray();
    for (int number : numbers) {
      json.writeNumber(number);
    }
    json.writeEndArray();
  }

  private List<Integer> parts(String text) {
    return CUTS.splitAsStream(text).map(this::word).toList();
  }

  private int word(String text) {
    return words.computeIfAbsent(Visible.line(text), w -> words.size());
  }

  private void controller(Controller controller) throws IOException {
    byte[] table = tables.get(controller.name());
    List<Unit> order = Lowering.order(controller);
    json.writeStartObject();
    name("name", controller.name());
    json.writeStringField("table", Base64.getEncoder().encodeToString(table));
    json.writeArrayFieldStart("buses");
    for (Bus bus : Lowering.buses(controller)) {
      json.writeNumber(layout.buses().indexOf(bus));
    }
    json.writeEndArray();
    json.writeArrayFieldStart("chains");
    for (Chain chain : controller.chains()) {
      json.writeStartObject();
      name("name", chain.name());
      List<Unit> hung = order.stream().filter(u -> u.chain() == chain).toList();
      boolean chips = hung.stream().anyMatch(u -> !u.kind().feeds().isEmpty());
      json.writeStringField(
          "words", Words.count(chain.leds(), "LED") + (chips ? ", driver chips among them" : ""));
      json.writeNumberField("leds", chain.leds());
      json.writeNumberField("part", place(parts, chain.part()));
      json.writeNumberField("full", lights.full(chain, hung));
      json.writeEndObject();
    }
    json.writeEndArray();
    json.writeArrayFieldStart("signals");
    for (Signal signal : controller.signals()) {
      signal(signal, order);
    }
    json.writeEndArray();
    json.writeEndObject();
  }

  private void signal(Signal signal, List<Unit> order) throws IOException {
    json.writeStartObject();
    name("name", signal.name());
    json.writeNumberField("build", place(builds, signal.build()));
    json.writeNumberField("site", place(sites, readings.get(signal)));
    name("form", form(signal.build()));
    json.writeArrayFieldStart("units");
    for (Unit unit : signal.units()) {
      json.writeStartObject();
      name("name", unit.name());
      name(
          "place",
          unit.kind().isWholeSignal() ? "" : unit.name().substring(signal.name().length() + 1));
      json.writeNumberField("unit", place(order, unit));
      json.writeNumberField("kind", place(kinds, unit.kind()));
      json.writeNumberField("bus", layout.buses().indexOf(unit.command().bus()));
      json.writeNumberField("chain", unit.chain().index());
      json.writeNumberField("led", unit.led());
      ArmDrawing.angles(json, unit, signal);
      calls(unit);
      json.writeEndObject();
    }
    json.writeEndArray();
    json.writeEndObject();
  }

  private static String form(Signal.Build build) {
    List<String> heads = build.heads().stream().map(HeadType::name).distinct().toList();
    String plates =
        build.plates().isEmpty() ? "" : ", plates: " + String.join(", ", build.plates());
    return build.form().name() + ", heads: " + String.join(", ", heads) + plates;
  }

  /** What is sent for each state, in the order of the kind; nothing for one that nothing calls. */
  private void calls(Unit unit) throws IOException {
    json.writeArrayFieldStart("calls");
    for (int state = 0; state < unit.kind().states().size(); state++) {
      int wanted = state;
      json.writeStartArray();
      var answer = unit.kind().answers().stream().filter(a -> a.state() == wanted).findFirst();
      if (answer.isPresent()) {
        for (Message message : unit.kind().way().calling(unit, answer.get())) {
          message(message);
        }
      }
      json.writeEndArray();
    }
    json.writeEndArray();
  }

  /**
   * What travels: address and value of an extended packet, or address, output and 1 of a basic one;
   * an event; or topic and payload, and both as they are shown.
   */
  private void message(Message message) throws IOException {
    json.writeStartArray();
    if (message instanceof Message.ToAccessory to) {
      json.writeNumber(to.address());
      if (to.packet() instanceof Packet.BasicAccessory basic) {
        json.writeNumber(basic.output());
        json.writeNumber(1);
      } else {
        json.writeNumber(((Packet.ExtendedAccessory) to.packet()).value());
      }
    } else if (message instanceof Message.ToTopic to) {
      json.writeString(to.topic());
      json.writeString(to.payload());
      json.writeString(Visible.line(to.topic() + ": " + to.payload()));
    } else {
      json.writeString(((Message.ToAll) message).event().toString());
    }
    json.writeEndArray();
  }

  private void name(String field, String name) throws IOException {
    json.writeStringField(field, Visible.line(name));
  }

  /** Writes one of a list. */
  private interface Writing<T> {
    void to(T one) throws IOException;
  }

  private <T> void array(String field, List<T> all, Writing<T> writing) throws IOException {
    json.writeArrayFieldStart(field);
    for (T one : all) {
      writing.to(one);
    }
    json.writeEndArray();
  }

  /** Each object once; kinds, builds and parts of a layout that are equal are the same object. */
  private static <T> List<T> once(Collection<T> all) {
    Map<T, Boolean> seen = new IdentityHashMap<>();
    return all.stream().filter(one -> seen.put(one, true) == null).toList();
  }

  private static <T> int place(List<T> all, T wanted) {
    for (int i = 0; i < all.size(); i++) {
      if (all.get(i) == wanted) {
        return i;
      }
    }
    throw new IllegalArgumentException("not among them");
  }
}
