package dev.doublet.layout.read;

import dev.doublet.syntax.YamlNode;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;

/**
 * As much of JSON Schema 2020-12 as the schema of layouts uses, so that tests can hold layouts
 * against it. An unknown word of the schema language is an error, never passed over.
 */
final class JsonSchema {
  private static final List<String> WORDS_WITHOUT_EFFECT =
      List.of("$schema", "$defs", "title", "description");

  private final YamlNode root;
  private final List<String> faults = new ArrayList<>();

  private JsonSchema(YamlNode root) {
    this.root = root;
  }

  /** Where a value does not fit a schema; empty when it is valid. */
  static List<String> faults(YamlNode schema, YamlNode value) {
    JsonSchema run = new JsonSchema(schema);
    run.check(schema, value, "");
    return run.faults;
  }

  /** The node at a path of keys. */
  static YamlNode at(YamlNode node, String... path) {
    YamlNode found = node;
    for (String key : path) {
      found = find(found, key).orElseThrow(() -> new AssertionError("no " + key));
    }
    return found;
  }

  private void check(YamlNode schema, YamlNode value, String path) {
    for (YamlNode.Entry rule : ((YamlNode.Mapping) schema).entries()) {
      String word = rule.key().text();
      if (!WORDS_WITHOUT_EFFECT.contains(word) && !holds(word, rule.value(), schema, value, path)) {
        faults.add(path + ": " + word);
      }
    }
  }

  private boolean holds(String word, YamlNode rule, YamlNode schema, YamlNode value, String path) {
    switch (word) {
      case "$ref" -> check(at(root, text(rule).substring(2).split("/")), value, path);
      case "type" -> {
        return types(rule).stream().anyMatch(t -> isOf(t, value));
      }
      case "enum" -> {
        return ((YamlNode.Sequence) rule)
            .items().stream().anyMatch(i -> text(i).equals(textOrNothing(value)));
      }
      case "const" -> {
        return text(rule).equals(textOrNothing(value));
      }
      case "pattern" -> {
        return textOrNothing(value).matches(text(rule));
      }
      case "minimum" -> {
        return !isOf("number", value) || number(value) >= number(rule);
      }
      case "exclusiveMinimum" -> {
        return !isOf("number", value) || number(value) > number(rule);
      }
      case "maximum" -> {
        return !isOf("number", value) || number(value) <= number(rule);
      }
      case "anyOf" -> {
        return ((YamlNode.Sequence) rule).items().stream().anyMatch(option -> fits(option, value));
      }
      case "items" -> items(value).forEach(i -> check(rule, i, path + "/item"));
      case "minItems" -> {
        return items(value).size() >= number(rule);
      }
      case "maxItems" -> {
        return items(value).size() <= number(rule);
      }
      case "properties" ->
          entries(value)
              .forEach(
                  e ->
                      find(rule, e.key().text())
                          .ifPresent(r -> check(r, e.value(), path + "/" + e.key().text())));
      case "additionalProperties" ->
          entries(value).stream()
              .filter(
                  e -> find(schema, "properties").flatMap(p -> find(p, e.key().text())).isEmpty())
              .forEach(e -> checkAdditional(rule, e, path + "/" + e.key().text()));
      case "propertyNames" ->
          entries(value).forEach(e -> check(rule, e.key(), path + "/" + e.key().text()));
      case "required" -> {
        return ((YamlNode.Sequence) rule)
            .items().stream().allMatch(k -> find(value, text(k)).isPresent());
      }
      default -> throw new AssertionError("unknown word " + word);
    }
    return true;
  }

  private void checkAdditional(YamlNode rule, YamlNode.Entry entry, String path) {
    if (rule instanceof YamlNode.Scalar no && no.text().equals("false")) {
      faults.add(path + ": unknown");
    } else {
      check(rule, entry.value(), path);
    }
  }

  private boolean fits(YamlNode schema, YamlNode value) {
    JsonSchema run = new JsonSchema(root);
    run.check(schema, value, "");
    return run.faults.isEmpty();
  }

  private static List<String> types(YamlNode rule) {
    return rule instanceof YamlNode.Sequence list
        ? list.items().stream().map(JsonSchema::text).toList()
        : List.of(text(rule));
  }

  private static boolean isOf(String type, YamlNode value) {
    boolean plain = value instanceof YamlNode.Scalar s && !s.quoted() && !s.isNothing();
    return switch (type) {
      case "object" -> value instanceof YamlNode.Mapping;
      case "array" -> value instanceof YamlNode.Sequence;
      case "integer" -> plain && text(value).matches("[0-9]+");
      case "number" -> plain && text(value).matches("[0-9]+(\\.[0-9]+)?");
      case "boolean" -> plain && text(value).matches("true|false");
      case "string" ->
          value instanceof YamlNode.Scalar s
              && !s.isNothing()
              && !isOf("number", value)
              && !isOf("boolean", value);
      default -> throw new AssertionError("unknown type " + type);
    };
  }

  private static Optional<YamlNode> find(YamlNode node, String key) {
    return entries(node).stream()
        .filter(e -> e.key().text().equals(key))
        .map(YamlNode.Entry::value)
        .findFirst();
  }

  private static List<YamlNode.Entry> entries(YamlNode node) {
    return node instanceof YamlNode.Mapping mapping ? mapping.entries() : List.of();
  }

  private static List<YamlNode> items(YamlNode node) {
    return node instanceof YamlNode.Sequence sequence ? sequence.items() : List.of();
  }

  private static String text(YamlNode node) {
    return ((YamlNode.Scalar) node).text();
  }

  private static String textOrNothing(YamlNode node) {
    return node instanceof YamlNode.Scalar scalar ? scalar.text() : "";
  }

  private static double number(YamlNode node) {
    return Double.parseDouble(text(node));
  }
}
