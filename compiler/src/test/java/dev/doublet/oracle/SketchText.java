package dev.doublet.oracle;

import dev.doublet.oracle.Sketch.By;
import dev.doublet.oracle.Sketch.Head;
import dev.doublet.oracle.Sketch.Likeness;
import dev.doublet.oracle.Sketch.Line;
import dev.doublet.oracle.Sketch.Signal;
import dev.doublet.oracle.Sketch.Unit;
import java.util.ArrayList;
import java.util.List;
import java.util.stream.Collectors;

/** Writes a sketch as the two files that a user would write. */
final class SketchText {
  /** What aspects allow changes nothing of what the solvers are asked. */
  private static final List<String> ALLOWS =
      List.of(
          "stop",
          "stop, then creep",
          "60 then 40",
          "line reducing to 40 then stop",
          "unsaid then not stop",
          "line then 40 at short distance then stop at the second signal");

  private SketchText() {}

  /** The rulebook, in the language. */
  static String book(Sketch sketch) {
    StringBuilder text = new StringBuilder("rulebook \"Brackwater & Northern\"\n");
    text.append("speeds in mph { figures 40, 60  line maximum  creep 10 on sight }\n");
    text.append("colours { ").append(String.join(" ", sketch.colours())).append(" }\n");
    if (!sketch.numbers().isEmpty()) {
      text.append("numbers times 10 { ").append(spaced(sketch.numbers())).append(" }\n");
    }
    sketch.rhythms().forEach(r -> text.append("rhythms { ").append(r).append(" 60 per minute }\n"));
    sketch.plates().forEach(p -> text.append("plate ").append(plate(p)).append('\n'));
    for (Head head : sketch.heads()) {
      text.append(
          switch (head.make()) {
            case LAMPS -> head(head);
            case MASKS -> masks(head, sketch);
            case ARM -> arm(head);
          });
    }
    for (Sketch.Form form : sketch.forms()) {
      text.append("form ").append(form.name()).append(' ').append(form.mount()).append(" {");
      for (int place = 0; place < form.places(); place++) {
        text.append(" p").append(place);
        text.append(form.usuallyDark().contains(place) ? " usually dark" : "");
      }
      text.append(" }\n");
    }
    for (Sketch.Aspect aspect : sketch.aspects()) {
      text.append("aspect \"").append(aspect.name()).append("\" { number ");
      text.append(aspect.number()).append(aspect.letters().isEmpty() ? "" : " up");
      text.append(" allows ").append(allows(aspect)).append('\n');
      aspect.lines().forEach(line -> text.append(line(line)));
      aspect.likenesses().forEach(likeness -> text.append(likeness(likeness)));
      text.append("}\n");
    }
    sketch.expectations().forEach(e -> text.append(expectation(e)).append('\n'));
    return text.toString();
  }

  /** Every second aspect of many numbers says where a train goes, and not how fast. */
  private static String allows(Sketch.Aspect aspect) {
    return aspect.letters().isEmpty() || aspect.number() % 2 == 0
        ? ALLOWS.get(aspect.number() % ALLOWS.size())
        : aspect.letters().get(0) + " then stop";
  }

  /** One line of the rulebook. */
  static String expectation(Sketch.Expected expected) {
    return "expect "
        + expected.pictures().stream()
            .map(p -> pattern(p, expected.form()))
            .collect(Collectors.joining(" or "))
        + on(List.of(expected.form()))
        + with(expected.plates())
        + " means "
        + (expected.aspect().isEmpty() ? "nothing" : "\"" + expected.aspect() + "\"");
  }

  /** The layout, in YAML, following a rulebook of the given name. */
  static String layout(Sketch sketch, String rulebook) {
    StringBuilder text = new StringBuilder("layout: Sketch\nrulebook: " + rulebook + "\n");
    text.append("buses:\n  dcc5: {speaks: dcc, aspect-bits: 5}\n");
    text.append("  dcc8: {speaks: dcc, aspect-bits: 8}\n");
    text.append("  mqtt: {speaks: mqtt}\n  can: {speaks: openlcb}\n");
    text.append("controllers:\n  one:\n    flash: 30000\n    ram: 2000\n");
    text.append("    chains:\n      main:\n        signals:\n");
    sketch.signals().forEach(signal -> text.append(signal(signal)));
    return text.toString();
  }

  private static String head(Head head) {
    StringBuilder text = new StringBuilder("head " + head.name() + " {");
    for (int lamp = 0; lamp < head.lamps().size(); lamp++) {
      text.append(" lamp l").append(lamp).append(" shows ");
      text.append(String.join(", ", head.lamps().get(lamp)));
    }
    head.figures()
        .forEach(
            (name, lit) -> {
              text.append(" figure ").append(name).append(" lights ");
              text.append(
                  lit.entrySet().stream()
                      .map(e -> lit(e.getKey(), e.getValue().split(" ")))
                      .collect(Collectors.joining(", ")));
            });
    return text.append(" }\n").toString();
  }

  private static String masks(Head head, Sketch sketch) {
    List<String> numbers = List.copyOf(head.figures().keySet());
    boolean all = numbers.size() == sketch.numbers().size();
    return "head "
        + head.name()
        + " shows "
        + (all ? "numbers" : String.join(", ", numbers))
        + " in "
        + head.lamps().get(0).get(0)
        + "\n";
  }

  private static String arm(Head head) {
    return head.figures().entrySet().stream()
        .map(
            p ->
                p.getKey()
                    + p.getValue().values().stream().map(c -> " in " + c).findFirst().orElse(""))
        .collect(Collectors.joining(", ", "arm " + head.name() + " shows ", "\n"));
  }

  private static String spaced(List<Integer> numbers) {
    return numbers.stream().map(String::valueOf).collect(Collectors.joining(" "));
  }

  private static String lit(int lamp, String[] words) {
    String in = "l" + lamp + " in " + words[words.length - 1];
    return words.length == 1 ? in : words[0] + " " + in;
  }

  private static String likeness(Likeness likeness) {
    return " as \""
        + likeness.other().name()
        + "\""
        + (likeness.forms().isEmpty() ? "" : on(likeness.forms()))
        + " with "
        + plate(likeness.plate())
        + " plate"
        + (likeness.exceptions().isEmpty()
            ? "\n"
            : likeness.exceptions().stream()
                .map(SketchText::pattern)
                .collect(Collectors.joining(" or ", " except ", "\n")));
  }

  private static String with(List<String> plates) {
    return plates.isEmpty()
        ? ""
        : plates.stream()
            .map(SketchText::plate)
            .collect(Collectors.joining(" and ", " with ", " plates"));
  }

  private static String plate(String name) {
    return name.contains(" ") ? '"' + name + '"' : name;
  }

  private static String on(List<Sketch.Form> forms) {
    return forms.stream().map(Sketch.Form::name).collect(Collectors.joining(", ", " on ", ""));
  }

  private static String line(Line line) {
    return on(line.forms())
        + with(line.plates())
        + line.alternatives().stream()
            .map(p -> pattern(p, line.forms().get(0)))
            .collect(Collectors.joining(" or ", " show ", "\n"));
  }

  /** With those heads left unsaid that are usually dark, where all of them are. */
  private static String pattern(List<List<String>> choices, Sketch.Form form) {
    boolean asUsual =
        form.usuallyDark().stream().allMatch(p -> choices.get(p).equals(List.of(Sketch.DARK)));
    List<List<String>> said = new ArrayList<>();
    for (int place = 0; place < choices.size(); place++) {
      if (!asUsual || !form.usuallyDark().contains(place)) {
        said.add(choices.get(place));
      }
    }
    return pattern(said);
  }

  private static String pattern(List<List<String>> choices) {
    return choices.stream()
        .map(c -> c.isEmpty() ? "any" : choice(c))
        .collect(Collectors.joining(" over "));
  }

  private static String choice(List<String> displays) {
    String all = String.join(" or ", displays);
    return all.startsWith("{") ? all : "(" + all + ")";
  }

  private static String signal(Signal signal) {
    List<String> facts = new ArrayList<>();
    facts.add("name: " + signal.name());
    facts.add("form: " + signal.form().name());
    List<String> heads = new ArrayList<>();
    for (int place = 0; place < signal.heads().size(); place++) {
      String type = signal.heads().get(place).name();
      heads.add(signal.byHead() ? head(type, signal.units().get(place)) : type);
    }
    facts.add("heads: " + heads);
    if (!signal.plates().isEmpty()) {
      facts.add("plates: " + signal.plates());
    }
    if (!signal.aspects().isEmpty()) {
      facts.add("aspects: " + signal.aspects().stream().map(a -> '"' + a + '"').toList());
    }
    if (!signal.byHead()) {
      facts.addAll(commanded(signal.units().get(0)));
    }
    return "        - {" + String.join(", ", facts) + "}\n";
  }

  private static String head(String type, Unit unit) {
    List<String> facts = new ArrayList<>(List.of("type: " + type, "shows: " + unit.shows()));
    facts.addAll(commanded(unit));
    return "{" + String.join(", ", facts) + "}";
  }

  private static List<String> commanded(Unit unit) {
    List<String> facts = new ArrayList<>(List.of("by: " + unit.by().word));
    switch (unit.by()) {
      case TOPIC -> facts.add("payload: " + (unit.byName() ? "name" : "number"));
      case EVENT -> facts.add("first-event: 05.01.01.01.22.00.00.00");
      default -> {
        facts.add("bus: dcc" + unit.bits());
        // Bits can be said outright, or follow from the addresses listed.
        if (unit.by() == By.BINARY_CODED && unit.addresses() > 0 && unit.byName()) {
          facts.add("bits: " + unit.addresses());
        } else if (unit.addresses() > 0) {
          facts.add("addresses: " + List.of(3, 9, 6, 12).subList(0, unit.addresses()));
        }
      }
    }
    if (!unit.values().isEmpty()) {
      facts.add("values: " + unit.values().toString().replace("=", ": "));
    }
    if (!unit.otherwise().isEmpty()) {
      facts.add("otherwise: " + unit.otherwise());
    }
    return facts;
  }
}
