package dev.doublet.chart;

import dev.doublet.chart.Answers.Called;
import dev.doublet.chart.Answers.Heard;
import dev.doublet.chart.Answers.Sent;
import dev.doublet.layout.Command;
import dev.doublet.layout.Kind;
import dev.doublet.layout.Way;
import dev.doublet.rulebook.Aspect;
import dev.doublet.rulebook.Display;
import java.util.List;
import java.util.function.Function;
import java.util.stream.Collectors;

/**
 * {@link Answers} as comma-separated values: a row for each value, and one for all that call up
 * nothing. Where several packets are sent, their parts stand in one cell with blanks between.
 */
public final class AnswersCsv {
  private static final List<String> HEADS =
      List.of(
          "controller",
          "signal",
          "by",
          "bus",
          "address",
          "inside",
          "output",
          "packet",
          "topic",
          "payload",
          "event",
          "value",
          "calls up",
          "shows",
          "rule",
          "picture",
          "allows",
          "indication",
          "note",
          "by night",
          "arms");

  private AnswersCsv() {}

  /** The whole list under one row of heads. */
  public static String of(Answers answers) {
    StringBuilder out = new StringBuilder(Csv.row(HEADS));
    for (Heard heard : answers.heard()) {
      heard.called().forEach(c -> out.append(Csv.row(row(heard, c))));
      if (!heard.unanswered().isEmpty()) {
        out.append(Csv.row(nothing(heard)));
      }
    }
    return out.toString();
  }

  private static List<String> row(Heard heard, Called called) {
    Kind kind = heard.unit().kind();
    Command command = heard.unit().command();
    String what = joined(called, s -> s.what());
    boolean accessory = !command.addresses().isEmpty();
    return List.of(
        heard.controller(),
        heard.unit().name(),
        kind.way().word(),
        command.bus().name(),
        accessory ? joined(called, s -> Integer.toString(s.address())) : "",
        accessory ? joined(called, s -> Integer.toString(s.binary())) : "",
        accessory ? what.strip() : "",
        joined(called, Sent::packet),
        command.topic(),
        kind.way() instanceof Way.Topic ? what : "",
        kind.way() instanceof Way.Event ? what : "",
        Integer.toString(called.value()),
        "something",
        called.state().name(),
        called.state().aspect().map(Aspect::rule).orElse(""),
        Display.over(called.state().picture()),
        called.state().aspect().map(a -> a.permission().words()).orElse(""),
        called.state().aspect().map(Aspect::indication).orElse(""),
        heard.note(),
        called.byNight(),
        String.join(", ", called.stands()));
  }

  private static List<String> nothing(Heard heard) {
    Command command = heard.unit().command();
    return List.of(
        heard.controller(),
        heard.unit().name(),
        heard.unit().kind().way().word(),
        command.bus().name(),
        "",
        "",
        "",
        "",
        command.topic(),
        "",
        "",
        heard.unanswered(),
        "nothing",
        heard.then().isEmpty() ? "as before" : heard.then(),
        "",
        "",
        "",
        "",
        heard.note(),
        "",
        "");
  }

  private static String joined(Called called, Function<Sent, String> part) {
    return called.sent().stream().map(part).collect(Collectors.joining(" "));
  }
}
