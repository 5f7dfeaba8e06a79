package dev.doublet.cli;

import java.util.LinkedHashMap;
import java.util.Map;
import java.util.Set;
import java.util.function.Function;
import picocli.CommandLine;

/** The verbs, in the order of the help. */
final class Verbs {
  private static final Map<String, Function<Terminal, Object>> ALL = all();

  private Verbs() {}

  private static Map<String, Function<Terminal, Object>> all() {
    Map<String, Function<Terminal, Object>> all = new LinkedHashMap<>();
    all.put("new", NewVerb::new);
    all.put("check", CheckVerb::new);
    all.put("diff", DiffVerb::new);
    all.put("pin", PinVerb::new);
    all.put("build", BuildVerb::new);
    all.put("answers", AnswersVerb::new);
    all.put("sheet", SheetVerb::new);
    all.put("wiring", WiringVerb::new);
    all.put("parts", PartsVerb::new);
    all.put("labels", LabelsVerb::new);
    all.put("sequence", SequenceVerb::new);
    all.put("chart", ChartVerb::new);
    all.put("look", LookVerb::new);
    all.put("page", PageVerb::new);
    all.put("show", ShowVerb::new);
    all.put("send", SendVerb::new);
    all.put("inspect", InspectVerb::new);
    all.put("format", FormatVerb::new);
    all.put("explain", ExplainVerb::new);
    all.put("serve", ServeVerb::new);
    all.put("completion", CompletionVerb::new);
    return all;
  }

  /** Their names. */
  static Set<String> names() {
    return ALL.keySet();
  }

  /**
   * Gives a command its verbs: the one asked for, or all when none is, for help and for what is
   * misspelt. Setting up a verb takes longer than many a check.
   */
  static void addTo(CommandLine command, Terminal terminal, String... arguments) {
    String asked = arguments.length == 0 ? "" : arguments[0];
    ALL.forEach(
        (name, verb) -> {
          if (name.equals(asked) || !ALL.containsKey(asked)) {
            command.addSubcommand(name, verb.apply(terminal));
          }
        });
  }
}
