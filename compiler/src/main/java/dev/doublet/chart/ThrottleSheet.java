package dev.doublet.chart;

import dev.doublet.bus.Accessory;
import dev.doublet.bus.EventId;
import dev.doublet.chart.Answers.Called;
import dev.doublet.chart.Answers.Heard;
import dev.doublet.chart.Answers.Sent;
import dev.doublet.diagnostic.Words;
import dev.doublet.layout.Layout;
import dev.doublet.layout.Unit;
import dev.doublet.layout.Way;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.stream.Collectors;

/**
 * What lies beside a throttle: a line for each unit, which says where it listens and by which code,
 * and each code once, whatever number of units share it.
 *
 * @param title the layout's
 * @param book the rulebook's title and edition
 * @param codes in the order of the first unit of each
 * @param lines a line for each unit, in chain order
 * @param buses true when units listen on several buses, so that each line names its own
 * @param notes what has to be known to read the sheet, a line each; may be empty
 */
public record ThrottleSheet(
    String title,
    String book,
    List<Code> codes,
    List<Line> lines,
    boolean buses,
    List<String> notes) {
  private static final int MOST_EVENTS = 256;

  /** Copies the lists. */
  public ThrottleSheet {
    codes = List.copyOf(codes);
    lines = List.copyOf(lines);
    notes = List.copyOf(notes);
  }

  /**
   * What is sent for each state.
   *
   * @param letter its name on the sheet: A to Z, then AA
   * @param how what to do, in words
   * @param heads of the columns of what is sent
   * @param rows one for each value that calls up a state
   * @param remarks when it changes, and what all else does; may be empty
   */
  public record Code(
      String letter, String how, List<String> heads, List<Row> rows, List<String> remarks) {

    /** Copies the lists. */
    public Code {
      heads = List.copyOf(heads);
      rows = List.copyOf(rows);
      remarks = List.copyOf(remarks);
    }
  }

  /**
   * One state and how it is called up.
   *
   * @param sent what is sent, as many cells as the code has heads
   * @param shows the state's name
   */
  public record Row(List<String> sent, String shows) {

    /** Copies the list. */
    public Row {
      sent = List.copyOf(sent);
    }
  }

  /**
   * One unit.
   *
   * @param controller its controller's name
   * @param name its name
   * @param code the letter of its code
   * @param bus its bus
   * @param at where it listens: addresses in the order in which they are sent to, a topic, or its
   *     first event; empty when its code has all
   * @param inside the addresses as they stand in the packets; empty on other buses
   * @param note what to know of its signal; may be empty
   */
  public record Line(
      String controller,
      String name,
      String code,
      String bus,
      String at,
      String inside,
      String note) {}

  /** The sheet of a layout. */
  public static ThrottleSheet of(Layout layout) {
    Map<Code, String> letters = new LinkedHashMap<>();
    List<Code> codes = new ArrayList<>();
    List<Line> lines = new ArrayList<>();
    for (Heard heard : Answers.of(layout).heard()) {
      Code unnamed = code(heard);
      String letter = letters.computeIfAbsent(unnamed, c -> letter(letters.size()));
      if (codes.size() < letters.size()) {
        codes.add(
            new Code(letter, unnamed.how(), unnamed.heads(), unnamed.rows(), unnamed.remarks()));
      }
      lines.add(line(heard, letter));
    }
    return new ThrottleSheet(
        layout.title(),
        Words.say("%s, edition %d", layout.rulebook().title(), layout.rulebook().edition()),
        codes,
        lines,
        lines.stream().map(Line::bus).distinct().count() > 1,
        Words.both(notes(codes), modules(layout)));
  }

  /** Whose addresses are not those of their own files. */
  private static List<String> modules(Layout layout) {
    return layout.modules().stream()
        .map(
            m ->
                Words.say(
                    "Signals of %s, on %s %s: DCC addresses are %s.",
                    m.words(),
                    Words.plural(m.controllers().size(), "controller"),
                    Words.list(m.controllers()),
                    m.offset() == 0
                        ? "as in its own file"
                        : Words.say("%d more than in its own file", m.offset())))
        .toList();
  }

  /*
   * Which state is which output is the OpenLCB Event Identifiers standard's; that the output 1 sets a
   * turnout straight is RCN-213's, from memory.
   */
  private static List<String> notes(List<Code> codes) {
    boolean states =
        codes.stream()
            .flatMap(c -> c.rows().stream())
            .flatMap(r -> r.sent().stream())
            .anyMatch(s -> s.endsWith("normal") || s.endsWith("reverse"));
    return states
        ? List.of(
            "Normal is the button of a throttle that sets a turnout straight (output 1),",
            "reverse the one that sets it for the branch (output 0). When signals show other aspects",
            "than this sheet says, the throttle has the two the other way round: swap them.")
        : List.of();
  }

  private static Code code(Heard heard) {
    Optional<EventId> first = firstEvent(heard);
    return new Code(
        "",
        how(heard.unit().kind().way()),
        heads(heard.unit().kind().way()),
        heard.called().stream().map(c -> row(heard, c, first)).toList(),
        remarks(heard));
  }

  private static String how(Way way) {
    if (way instanceof Way.BinaryCoded) {
      return "set each address, one after the other";
    }
    if (way instanceof Way.OnePerOutput) {
      return "set one address";
    }
    return way instanceof Way.Topic
        ? "publish the payload"
        : way instanceof Way.Event ? "send the event" : "send the value";
  }

  private static List<String> remarks(Heard heard) {
    List<String> remarks = new ArrayList<>();
    int settle = heard.unit().kind().way().settle();
    if (settle > 0) {
      remarks.add(Words.say("it changes %d ms after the last", settle));
    }
    if (!heard.unanswered().isEmpty()) {
      remarks.add(AnswersText.rest(heard));
    }
    return remarks;
  }

  private static List<String> heads(Way way) {
    if (way instanceof Way.BinaryCoded binary) {
      List<String> heads = new ArrayList<>(List.of("value"));
      for (int i = 0; i < binary.addresses(); i++) {
        heads.add(ordinal(i));
      }
      return heads;
    }
    if (way instanceof Way.OnePerOutput) {
      return List.of("value", "address", "state");
    }
    return List.of(
        way instanceof Way.Topic ? "payload" : way instanceof Way.Event ? "event" : "value");
  }

  private static Row row(Heard heard, Called called, Optional<EventId> first) {
    Way way = heard.unit().kind().way();
    List<String> sent = new ArrayList<>();
    if (way.addresses() > 0) {
      sent.add(Integer.toString(called.value()));
    }
    if (way instanceof Way.OnePerOutput) {
      sent.add(ordinal(called.value() / 2));
    }
    for (Sent one : called.sent()) {
      if (way instanceof Way.Event) {
        sent.add(first.map(f -> after(f, one)).orElse(one.what()));
      } else if (!(way instanceof Way.AspectNumber)) {
        sent.add(one.what());
      }
    }
    return new Row(sent, called.state().name());
  }

  private static String after(EventId first, Sent sent) {
    long places = event(sent) - first.bits();
    return places == 0 ? "the first" : "the first + " + places;
  }

  /** The least of a unit's events, when all others follow near; else they have to be listed. */
  private static Optional<EventId> firstEvent(Heard heard) {
    if (!(heard.unit().kind().way() instanceof Way.Event)) {
      return Optional.empty();
    }
    List<Long> events =
        heard.called().stream().flatMap(c -> c.sent().stream()).map(s -> event(s)).toList();
    return events.stream()
        .min(Long::compareUnsigned)
        .filter(
            least ->
                events.stream().allMatch(e -> Long.compareUnsigned(e - least, MOST_EVENTS) < 0))
        .map(EventId::new);
  }

  private static long event(Sent sent) {
    return EventId.parse(sent.what()).orElseThrow().bits();
  }

  private static Line line(Heard heard, String letter) {
    Unit unit = heard.unit();
    String at = unit.command().topic();
    String inside = "";
    if (unit.kind().way() instanceof Way.Event) {
      at = firstEvent(heard).map(EventId::toString).orElse("");
    } else if (at.isEmpty()) {
      at = joined(unit.command().addresses());
      int first = unit.command().bus().firstDecoder();
      inside =
          joined(unit.command().addresses().stream().map(a -> Accessory.binary(a, first)).toList());
    }
    return new Line(
        heard.controller(),
        unit.name(),
        letter,
        unit.command().bus().name(),
        at,
        inside,
        heard.note());
  }

  /** Addresses in their order: "40, 30"; three or more that follow one another as "5 to 7". */
  private static String joined(List<Integer> addresses) {
    int last = addresses.size() - 1;
    boolean run = last > 1;
    for (int i = 1; i <= last; i++) {
      run &= addresses.get(i) == addresses.get(0) + i;
    }
    return run
        ? addresses.get(0) + " to " + addresses.get(last)
        : addresses.stream().map(a -> Integer.toString(a)).collect(Collectors.joining(", "));
  }

  private static String ordinal(int index) {
    int number = index + 1;
    int tens = number % 100;
    boolean plain = tens >= 11 && tens <= 13;
    return number
        + (plain
            ? "th"
            : number % 10 == 1 ? "st" : number % 10 == 2 ? "nd" : number % 10 == 3 ? "rd" : "th");
  }

  private static String letter(int index) {
    String last = Character.toString('A' + index % 26);
    return index < 26 ? last : letter(index / 26 - 1) + last;
  }
}
