package dev.doublet.layout.read;

import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.core.util.DefaultIndenter;
import com.fasterxml.jackson.core.util.DefaultPrettyPrinter;
import com.fasterxml.jackson.databind.ObjectMapper;
import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.JsonNodeFactory;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.util.Collection;
import java.util.List;
import java.util.Locale;
import java.util.TreeMap;
import java.util.stream.Collectors;

/**
 * The JSON Schema of layout files, made of the table of keys. It keeps to words of 2020-12 that
 * editors act on while somebody types.
 */
final class LayoutSchema {
  private static final JsonNodeFactory JSON = JsonNodeFactory.instance;

  private LayoutSchema() {}

  /** The schema as it is published. */
  static String text() {
    DefaultPrettyPrinter printer =
        new DefaultPrettyPrinter()
            .withObjectIndenter(new DefaultIndenter("  ", "\n"))
            .withArrayIndenter(new DefaultIndenter("  ", "\n"));
    try {
      return new ObjectMapper().writer(printer).writeValueAsString(of(Keys.PLACES)) + "\n";
    } catch (JsonProcessingException e) {
      throw new IllegalStateException(e);
    }
  }

  private static ObjectNode of(List<Place> places) {
    ObjectNode schema = JSON.objectNode();
    schema.put("$schema", "https://json-schema.org/draft/2020-12/schema");
    schema.put("title", "A Doublet layout");
    schema.setAll(place(places.get(0)));
    ObjectNode parts = schema.putObject("$defs");
    parts.putObject("text").putArray("type").add("string").add("number").add("boolean");
    places.stream().skip(1).forEach(p -> parts.set(name(p), place(p)));
    return schema;
  }

  private static ObjectNode place(Place place) {
    ObjectNode node = JSON.objectNode();
    node.put("description", place.help());
    node.put("type", "object");
    ObjectNode properties = node.putObject("properties");
    for (Key<?> key : place.keys()) {
      properties.setAll(property(key));
    }
    node.put("additionalProperties", false);
    ArrayNode needed = JSON.arrayNode();
    place.keys().stream().filter(Key::needed).forEach(key -> needed.add(key.name()));
    if (!needed.isEmpty()) {
      node.set("required", needed);
    }
    place.keys().stream()
        .filter(key -> !key.instead().isEmpty())
        .collect(Collectors.groupingBy(Key::instead, TreeMap::new, Collectors.toList()))
        .forEach((other, keys) -> node.set("anyOf", either(other, keys)));
    return node;
  }

  /** Either one key, or all that it says as much as. */
  private static ArrayNode either(String one, List<Key<?>> all) {
    ArrayNode either = JSON.arrayNode();
    either.addObject().putArray("required").add(one);
    ArrayNode needed = either.addObject().putArray("required");
    all.forEach(key -> needed.add(key.name()));
    return either;
  }

  /** What a schema says of one key, by its name. */
  static ObjectNode property(Key<?> key) {
    ObjectNode node = JSON.objectNode();
    node.set(key.name(), value(key.takes()).put("description", key.help()));
    return node;
  }

  private static ObjectNode value(Takes<?> takes) {
    ObjectNode node = JSON.objectNode();
    if (takes instanceof Takes.Text text && !text.usual().isEmpty()) {
      ArrayNode either = node.putArray("anyOf");
      words(either.addObject(), text.usual());
      either.add(value(new Takes.Text(text.words(), text.pattern())));
    } else if (takes instanceof Takes.Text text) {
      return text.pattern().isEmpty()
          ? node.put("$ref", "#/$defs/text")
          : node.put("type", "string").put("pattern", pattern(text));
    } else if (takes instanceof Takes.Whole whole) {
      node.put("type", "integer").put("minimum", whole.least()).put("maximum", whole.most());
    } else if (takes instanceof Takes.Decimal decimal) {
      node.put("type", "number")
          .put(decimal.above() ? "exclusiveMinimum" : "minimum", decimal.least());
      node.put("maximum", decimal.most());
    } else if (takes instanceof Takes.Word<?> word) {
      words(node, word.meanings().keySet());
    } else if (takes instanceof Takes.Each<?> each) {
      list(node, each.item(), each.least());
    } else if (takes instanceof Takes.Listed<?> listed) {
      list(node, listed.item(), listed.least());
      if (listed.once()) {
        node.put("uniqueItems", true);
      }
    } else if (takes instanceof Takes.ByName<?> named) {
      node.put("type", "object");
      String pattern = pattern(named.names());
      if (!pattern.isEmpty()) {
        node.putObject("propertyNames").put("pattern", pattern);
      }
      node.set("additionalProperties", value(named.value()));
    } else if (takes instanceof Takes.Keyed keyed) {
      List<ObjectNode> places = keyed.places().stream().map(LayoutSchema::reference).toList();
      return places.size() == 1
          ? places.get(0)
          : node.set("anyOf", JSON.arrayNode().addAll(places));
    } else if (takes instanceof Takes.Either either) {
      node.putArray("anyOf").addAll(either.sorts().stream().map(LayoutSchema::value).toList());
    } else {
      throw new IllegalStateException("no schema for " + takes);
    }
    return node;
  }

  private static void list(ObjectNode node, Takes<?> item, int least) {
    node.put("type", "array").set("items", value(item));
    if (least > 0) {
      node.put("minItems", least);
    }
  }

  private static void words(ObjectNode node, Collection<String> words) {
    ArrayNode all = JSON.arrayNode();
    for (String word : words) {
      Takes.Whole.digits(word).ifPresentOrElse(all::add, () -> all.add(word));
    }
    if (all.size() == 1) {
      node.set("const", all.get(0));
    } else {
      node.set("enum", all);
    }
  }

  /** What a text must match, as a schema says it; empty for any text. */
  private static String pattern(Takes.Single<?> single) {
    if (single instanceof Takes.Whole whole) {
      return "^[0-9]{1," + Integer.toString(whole.most()).length() + "}$";
    }
    String pattern = ((Takes.Text) single).pattern();
    return pattern.isEmpty() ? "" : "^" + pattern + "$";
  }

  private static ObjectNode reference(Place place) {
    return JSON.objectNode().put("$ref", "#/$defs/" + name(place));
  }

  private static String name(Place place) {
    return place.name().toLowerCase(Locale.ROOT).replace(' ', '-');
  }
}
