package dev.doublet.diff;

import dev.doublet.facts.LayoutFacts;
import dev.doublet.layout.Layout;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;

/** What changed of a layout. */
final class LayoutChanges {
  private LayoutChanges() {}

  /**
   * Everything that changed, in no order.
   *
   * @param book what changed of its rulebook
   * @param signals its signals then and now
   */
  static List<Event> of(
      LayoutFacts before, LayoutFacts after, BookChanges book, SignalPairs signals) {
    List<Event> events = new ArrayList<>();
    events.addAll(SignalChanges.of(signals, book));
    events.addAll(AnswerChanges.of(signals, book));
    events.addAll(BoardChanges.of(before, after, book, signals));
    events.addAll(lines(before.layout(), after.layout()));
    return events;
  }

  /** What happened alike to several signals, told once. */
  static List<Event> gathered(List<Event> events) {
    Map<Event, List<String>> alike = new LinkedHashMap<>();
    Map<Event, Event> first = new LinkedHashMap<>();
    for (Event event : events) {
      // Two sights are never equal, as they hold a whole book; the words before and after tell.
      Event key = event.of(List.of()).seen(null, null);
      alike.computeIfAbsent(key, k -> new ArrayList<>()).addAll(event.subject().names());
      first.putIfAbsent(key, event);
    }
    List<Event> gathered = new ArrayList<>();
    alike.forEach((key, names) -> gathered.add(first.get(key).of(names)));
    return gathered;
  }

  private static List<Event> lines(Layout before, Layout after) {
    List<Event> events = new ArrayList<>();
    line("title", before.title(), after.title(), Consequence.TEXT, events);
    line("scale", "1:" + before.scale(), "1:" + after.scale(), Consequence.WORK, events);
    line("viewing", viewing(before), viewing(after), Consequence.TEXT, events);
    line("modules", modules(before), modules(after), Consequence.WORK, events);
    line("prices", before.prices().toString(), after.prices().toString(), Consequence.TEXT, events);
    line("faults that count as errors", faults(before), faults(after), Consequence.TEXT, events);
    events.addAll(
        BookChanges.listed(
            Sort.ACCEPTANCE_CHANGED,
            "layout",
            "accepts",
            before.acceptances().stream().map(Accepting::words).toList(),
            after.acceptances().stream().map(Accepting::words).toList()));
    return events;
  }

  private static String modules(Layout layout) {
    return String.join(
        "; ",
        layout.modules().stream()
            .map(m -> m.words() + ", addresses moved by " + m.offset())
            .toList());
  }

  private static String viewing(Layout layout) {
    return layout
        .viewing()
        .map(v -> v.metres() + " m, " + v.lampSpacing() + " mm, " + v.eyes())
        .orElse("");
  }

  private static String faults(Layout layout) {
    return String.join(", ", layout.errors().stream().map(f -> f.words()).sorted().toList());
  }

  private static void line(
      String what, String was, String is, Consequence consequence, List<Event> events) {
    if (!was.equals(is)) {
      events.add(
          Event.of(
                  Sort.LAYOUT_LINE_CHANGED,
                  consequence,
                  Subject.whole("layout"),
                  "has another " + what)
              .at(what)
              .from(was, is));
    }
  }
}
