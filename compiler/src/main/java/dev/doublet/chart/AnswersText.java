package dev.doublet.chart;

import dev.doublet.chart.Answers.Called;
import dev.doublet.chart.Answers.Heard;
import dev.doublet.chart.Answers.Sent;
import dev.doublet.layout.Kind;
import dev.doublet.layout.Unit;
import dev.doublet.layout.Way;
import dev.doublet.rulebook.Aspect;
import dev.doublet.rulebook.Display;
import java.util.List;
import java.util.function.Function;
import java.util.stream.Collectors;

/** {@link Answers} as text: a heading and a row for each value, unit by unit. */
public final class AnswersText {
  private AnswersText() {}

  /** The whole list; a blank line stands between units. */
  public static String of(Answers answers) {
    return answers.heard().stream().map(AnswersText::unit).collect(Collectors.joining("\n"));
  }

  private static String unit(Heard heard) {
    Kind kind = heard.unit().kind();
    StringBuilder out = new StringBuilder();
    out.append(heard.unit().name()).append(" on controller ").append(heard.controller());
    out.append(", ").append(kind.way().word()).append(" on bus ");
    out.append(heard.unit().command().bus().name()).append(where(heard.unit()));
    out.append("\n  ").append(kind.states().get(kind.rest()).name()).append(" until ");
    out.append(until(kind)).append('\n');
    if (!heard.note().isEmpty()) {
      out.append("  note: ").append(heard.note()).append('\n');
    }
    Columns columns =
        new Columns(
            List.of(
                "value",
                "send",
                "packet",
                "shows",
                "rule",
                "picture",
                "by night",
                "arms",
                "allows",
                "indication"));
    if (!heard.movers().isEmpty()) {
      out.append("  ").append(String.join(", ", heard.movers())).append('\n');
    }
    heard.called().forEach(c -> columns.add(row(kind, c)));
    out.append(columns.draw("  "));
    if (!rest(heard).isEmpty()) {
      out.append("  ").append(rest(heard)).append('\n');
    }
    ByHand.of(heard.unit()).forEach(h -> out.append(h.words()));
    return out.toString();
  }

  /** What all does that calls up nothing; empty when everything calls up something. */
  static String rest(Heard heard) {
    if (heard.unanswered().isEmpty()) {
      return "";
    }
    return nothing(heard.unit().kind(), heard.unanswered())
        + " up nothing: "
        + (heard.then().isEmpty() ? "it stays as it is" : "it shows " + heard.then());
  }

  private static String nothing(Kind kind, String unanswered) {
    if (!isNumbered(kind)) {
      return unanswered + " calls";
    }
    boolean several = unanswered.contains(" ");
    return several ? "values " + unanswered + " call" : "value " + unanswered + " calls";
  }

  private static boolean isNumbered(Kind kind) {
    return kind.way().addresses() > 0;
  }

  private static String until(Kind kind) {
    return kind.way() instanceof Way.BinaryCoded binary && binary.addresses() > 1
        ? "each address has been set once"
        : "the first command";
  }

  /** Events have a row each, so the heading need not name them. */
  private static String where(Unit unit) {
    return unit.command().events().isEmpty() ? ", " + ListeningWords.words(unit) : "";
  }

  private static List<String> row(Kind kind, Called called) {
    return List.of(
        isNumbered(kind) ? Integer.toString(called.value()) : "",
        joined(called.sent(), s -> s.address() == 0 ? s.what() : output(s)),
        joined(called.sent(), Sent::packet),
        called.state().name(),
        called.state().aspect().map(Aspect::rule).orElse(""),
        Display.over(called.state().picture()),
        called.byNight(),
        String.join(", ", called.stands()),
        called.state().aspect().map(a -> a.permission().words()).orElse(""),
        called.state().aspect().map(Aspect::indication).orElse(""));
  }

  private static String output(Sent sent) {
    return sent.what().isEmpty() ? "" : sent.address() + " " + sent.what();
  }

  private static String joined(List<Sent> sent, Function<Sent, String> part) {
    return sent.stream().map(part).collect(Collectors.joining(", "));
  }
}
