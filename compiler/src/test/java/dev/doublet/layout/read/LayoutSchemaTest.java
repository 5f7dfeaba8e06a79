package dev.doublet.layout.read;

import static org.assertj.core.api.Assertions.assertThat;

import dev.doublet.colour.LedFamily;
import dev.doublet.diagnostic.Outcome;
import dev.doublet.golden.Case;
import dev.doublet.layout.Mode;
import dev.doublet.source.SourceFile;
import dev.doublet.syntax.YamlNode;
import dev.doublet.syntax.YamlReader;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Locale;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;
import org.junit.jupiter.params.provider.MethodSource;
import org.junit.jupiter.params.provider.ValueSource;

/** The published schema says what the resolver says; JSON is read as the YAML that it is. */
class LayoutSchemaTest {
  private static final YamlNode SCHEMA =
      read(Path.of("src/main/resources/dev/doublet/layout.schema.json"));

  @ParameterizedTest
  @EnumSource(Keys.class)
  void everyPartHasExactlyTheKeysOfTheResolver(Keys keys) {
    YamlNode part = part(keys);
    assertThat(names(JsonSchema.at(part, "properties"))).containsExactlyElementsOf(keys.words());
    assertThat(text(JsonSchema.at(part, "additionalProperties"))).isEqualTo("false");
  }

  @Test
  void everyPartOfTheSchemaIsOneOfTheResolvers() {
    List<String> parts = Stream.of(Keys.values()).map(LayoutSchemaTest::name).toList();
    assertThat(names(JsonSchema.at(SCHEMA, "$defs")))
        .allMatch(n -> parts.contains(n) || n.equals("text") || n.equals("otherwise"));
  }

  @Test
  void choicesAreThoseOfTheResolver() {
    YamlNode by = JsonSchema.at(part(Keys.SIGNAL), "properties", "by", "enum");
    assertThat(texts(by))
        .containsExactlyElementsOf(Stream.of(Mode.values()).map(Mode::word).toList());
    YamlNode otherwise = JsonSchema.at(SCHEMA, "$defs", "otherwise", "enum");
    assertThat(texts(otherwise)).containsExactlyElementsOf(LayoutResolver.OTHERWISE.keySet());
    YamlNode family = JsonSchema.at(part(Keys.LEDS), "properties", "family", "enum");
    assertThat(texts(family))
        .containsExactlyElementsOf(LedFamily.published().stream().map(LedFamily::name).toList());
    YamlNode strength = JsonSchema.at(part(Keys.LEDS), "properties", "strength", "enum");
    assertThat(texts(strength)).containsExactlyElementsOf(Parts.STRENGTHS.keySet());
    YamlNode eyes = JsonSchema.at(SCHEMA, "properties", "eyes", "items", "enum");
    assertThat(texts(eyes)).containsExactlyElementsOf(LayoutResolver.EYES.keySet());
    YamlNode faults = JsonSchema.at(SCHEMA, "properties", "count-as-errors", "items", "enum");
    assertThat(texts(faults)).containsExactlyElementsOf(LayoutResolver.FAULTS.keySet());
  }

  static Stream<Path> layoutsThatResolve() {
    return Case.pages(Path.of("src/test/resources/cases/layout")).stream()
        .filter(
            p ->
                LayoutResolver.resolve(Case.of(p).root(), Case.of(p).reader()).value().isPresent());
  }

  @ParameterizedTest
  @MethodSource("layoutsThatResolve")
  void whatResolvesIsValid(Path page) {
    Case input = Case.of(page);
    assertThat(JsonSchema.faults(SCHEMA, parse(input.files().get(input.root())))).isEmpty();
  }

  @ParameterizedTest
  @ValueSource(strings = {"yard", "brackwater", "terminus"})
  void theExamplesAreValid(String example) {
    YamlNode layout = read(Path.of("../examples", example, "layout.yaml"));
    assertThat(JsonSchema.faults(SCHEMA, layout)).isEmpty();
  }

  @ParameterizedTest
  @ValueSource(
      strings = {
        "kinds: {a: {froms: x}}",
        "kinds: {a: {by: telegraph}}",
        "kinds: {a: {address: 2049}}",
        "kinds: {a: {heads: [{type: x, by: topic}]}}",
        "buses: {a: {speaks: dcc, topics: x}}",
        "buses: {a: {speaks: morse}}",
        "scale: QQ",
        "leds: {rgb: {order: XYZ}}",
        "leds: {rgb: {family: xyz}}",
        "leds: {rgb: {measured: {red: {x: 0.7, y: 0.3}}}}",
        "kinds: {a: {mast: 0}}",
        "kinds: {a: {mast: [5, high]}}",
        "kinds: {a: {mast: []}}",
        "eyes: [sharp]",
        "accept: {check: a, of: [b], because: c}",
        "accept: [{check: a, of: [], because: c}]",
        "accept: [{check: a, of: [b]}]",
        "viewing: 0",
        "lens: 0",
        "kinds: {a: {lens: 1001}}",
        "controllers: {a: {flash: 1, ram: 1}}",
        "controllers: {a: {flash: many, ram: 1, chains: {}}}",
        "supplies: {bench: {volts: 5}}",
        "controllers: {a: {flash: 1, ram: 1, chains: {m: {cable: {awg: 24}, signals: []}}}}",
        "controllers: {a: {flash: 1, ram: 1, chains: {m: {feeds: [-1], signals: []}}}}",
        "controllers: {a: {flash: 1, ram: 1, chains: {m: {signals: [{kind: x}]}}}}",
        "controllers: {a: {flash: 1, ram: 1, chains: {m: {signals: [{gap: 1, name: x}]}}}}"
      })
  void whatTheResolverRefusesIsInvalid(String part) {
    String rest = part.startsWith("controllers") ? "" : "controllers: {}\n";
    String layout = "layout: A\nrulebook: b.aspects\n" + rest + part + "\n";
    assertThat(JsonSchema.faults(SCHEMA, parse(layout))).isNotEmpty();
  }

  private static YamlNode part(Keys keys) {
    return keys == Keys.LAYOUT ? SCHEMA : JsonSchema.at(SCHEMA, "$defs", name(keys));
  }

  private static String name(Keys keys) {
    return keys.name().toLowerCase(Locale.ROOT).replace('_', '-');
  }

  private static List<String> names(YamlNode mapping) {
    return ((YamlNode.Mapping) mapping).entries().stream().map(e -> e.key().text()).toList();
  }

  private static List<String> texts(YamlNode list) {
    return ((YamlNode.Sequence) list).items().stream().map(LayoutSchemaTest::text).toList();
  }

  private static String text(YamlNode scalar) {
    return ((YamlNode.Scalar) scalar).text();
  }

  private static YamlNode read(Path path) {
    try {
      return parse(Files.readString(path));
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  private static YamlNode parse(String text) {
    Outcome<YamlNode> outcome = YamlReader.read(new SourceFile("text", text));
    assertThat(outcome.diagnostics()).isEmpty();
    return outcome.value().orElseThrow();
  }
}
