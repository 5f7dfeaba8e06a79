package dev.doublet.oracle;

import dev.doublet.cells.Row;
import dev.doublet.cells.Table;
import dev.doublet.cells.Values;
import java.util.function.IntFunction;
import java.util.stream.Collectors;
import java.util.stream.IntStream;

/**
 * Writes a table as a decision table of OMG DMN 1.3. A value is a stretch of numbers, from itself
 * to the next.
 */
final class DecisionTableText {
  private static final String MODEL =
      """
      <definitions xmlns="https://www.omg.org/spec/DMN/20191111/MODEL/" id="d" name="d" namespace="urn:d">
      TYPES INPUTS
      <decision id="t" name="t"><variable name="t" typeRef="number"/>
      NEEDS
      <decisionTable id="dt" hitPolicy="UNIQUE" outputLabel="t">
      COLUMNS <output id="o"/>
      RULES
      </decisionTable></decision></definitions>
      """;
  private static final String TYPE =
      """
      <itemDefinition name="tV"><typeRef>number</typeRef>\
      <allowedValues><text>[0..SIZE]</text></allowedValues></itemDefinition>
      """;
  private static final String INPUT =
      """
      <inputData id="iV" name="vV"><variable name="vV" typeRef="tV"/></inputData>
      """;
  private static final String NEED =
      """
      <informationRequirement id="nV"><requiredInput href="#iV"/></informationRequirement>
      """;
  private static final String COLUMN =
      """
      <input id="cV"><inputExpression typeRef="tV"><text>vV</text></inputExpression></input>
      """;

  private DecisionTableText() {}

  /** The text of a model whose only decision is the table. */
  static String of(Table table) {
    return MODEL
        .replace(
            "TYPES",
            each(
                table,
                v ->
                    TYPE.replace("SIZE", Integer.toString(table.variables().get(v).size()))
                        .replace("tV", "t" + v)))
        .replace("INPUTS", each(table, v -> numbered(INPUT, v)))
        .replace("NEEDS", each(table, v -> numbered(NEED, v)))
        .replace("COLUMNS", each(table, v -> numbered(COLUMN, v)))
        .replace(
            "RULES",
            table.rows().stream().map(DecisionTableText::rule).collect(Collectors.joining()));
  }

  private static String each(Table table, IntFunction<String> text) {
    return IntStream.range(0, table.variables().size())
        .mapToObj(text)
        .collect(Collectors.joining());
  }

  private static String numbered(String text, int variable) {
    return text.replaceAll("([a-z])V", "$1" + variable);
  }

  private static String rule(Row row) {
    return row.sets().stream()
            .map(set -> "<inputEntry><text>" + test(set) + "</text></inputEntry>")
            .collect(Collectors.joining("", "<rule>", ""))
        + "<outputEntry><text>"
        + row.result()
        + "</text></outputEntry></rule>\n";
  }

  private static String test(Values set) {
    if (set.isAll()) {
      return "-";
    }
    int last = set.size() - 1;
    return IntStream.range(0, set.size())
        .filter(set::contains)
        .mapToObj(x -> "[" + x + ".." + (x + 1) + (x == last ? "]" : ")"))
        .collect(Collectors.joining(", "));
  }
}
