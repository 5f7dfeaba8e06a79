package dev.doublet.layout.read;

import static org.assertj.core.api.Assertions.assertThat;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import com.fasterxml.jackson.databind.node.ObjectNode;
import com.fasterxml.jackson.dataformat.yaml.YAMLMapper;
import com.networknt.schema.Schema;
import com.networknt.schema.SchemaLocation;
import com.networknt.schema.SchemaRegistry;
import com.networknt.schema.SpecificationVersion;
import dev.doublet.diagnostic.Diagnostic;
import dev.doublet.diagnostic.Severity;
import dev.doublet.golden.Case;
import dev.doublet.source.SourceFile;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.TreeSet;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;
import org.junit.jupiter.params.provider.ValueSource;

/**
 * The table of keys, and what is made of it: the page, and the schema, which a validator that knows
 * nothing of Doublet holds against the same texts as the reader. {@code -Ddoublet.update=true}
 * writes page and schema anew.
 */
class KeysTest {
  private static final Path SCHEMA = Path.of("src/main/resources/dev/doublet/layout.schema.json");
  private static final Path PAGE = Path.of("src/main/java/dev/doublet/layout/read/keys.md");
  private static final SchemaRegistry VALIDATORS =
      SchemaRegistry.withDefaultDialect(SpecificationVersion.DRAFT_2020_12);
  private static final JsonNode PUBLISHED = json(LayoutSchema.text());
  private static final Schema VALIDATOR = VALIDATORS.getSchema(PUBLISHED);

  @Test
  void theSchemaIsInStepWithTheTable() throws IOException {
    inStep(SCHEMA, LayoutSchema.text());
  }

  @Test
  void thePageIsInStepWithTheTable() throws IOException {
    inStep(PAGE, KeysPage.text());
  }

  @Test
  void theSchemaIsASchema() {
    Schema ofSchemas =
        VALIDATORS.getSchema(SchemaLocation.of("https://json-schema.org/draft/2020-12/schema"));
    assertThat(ofSchemas.validate(PUBLISHED)).isEmpty();
    assertThat(ofSchemas.validate(json("{\"type\": \"strange\"}"))).isNotEmpty();
  }

  @Test
  void theSchemaKeepsToWordsThatEditorsActOn() {
    TreeSet<String> words = new TreeSet<>();
    gather(PUBLISHED, words);
    assertThat(words)
        .isSubsetOf(
            "$defs",
            "$ref",
            "$schema",
            "additionalProperties",
            "anyOf",
            "const",
            "description",
            "enum",
            "exclusiveMinimum",
            "items",
            "maximum",
            "minItems",
            "minimum",
            "pattern",
            "properties",
            "propertyNames",
            "required",
            "title",
            "type",
            "uniqueItems");
  }

  /** The words of a schema, names of keys and parts left out. */
  private static void gather(JsonNode schema, TreeSet<String> words) {
    for (var word : schema.properties()) {
      words.add(word.getKey());
      boolean named = List.of("$defs", "properties").contains(word.getKey());
      Iterable<JsonNode> inside = named ? word.getValue() : List.of(word.getValue());
      inside.forEach(part -> gather(part, words));
      if (word.getKey().equals("anyOf")) {
        word.getValue().forEach(part -> gather(part, words));
      }
    }
  }

  static Stream<Key<?>> keys() {
    return Keys.PLACES.stream().flatMap(p -> p.keys().stream()).distinct();
  }

  @ParameterizedTest
  @MethodSource("keys")
  void everyKeyIsExplainedInOneSentence(Key<?> key) {
    assertThat(key.name()).matches("[a-z]+(-[a-z]+)*");
    assertThat(key.help()).matches("[A-Z][^.\n]*(\\.[^ ][^.\n]*)*\\.").hasSizeLessThan(160);
    assertThat(key.since()).matches("[0-9]+\\.[0-9]+");
  }

  /** Texts at and around what some key takes. */
  private static final List<String> TEXTS =
      List.of(
          "0",
          "1",
          "2",
          "4",
          "5",
          "8",
          "9",
          "10",
          "30",
          "31",
          "60",
          "61",
          "99",
          "100",
          "101",
          "255",
          "256",
          "1000",
          "1001",
          "2048",
          "2049",
          "65535",
          "65536",
          "100000",
          "100001",
          "1000000",
          "1000001",
          "268435456",
          "268435457",
          "-1",
          "0.04",
          "0.05",
          "0.5",
          "5.5",
          "6.1",
          "60.5",
          "100.5",
          "1000.5",
          "5V",
          "2000mA",
          "4,5",
          "1:87",
          "HO",
          "ho",
          "GRB",
          "GRBW",
          "GRG",
          "RGBX",
          "keep",
          "Keep",
          "dcc",
          "DCC",
          "name",
          "first",
          "even",
          "tritan",
          "lamp-out",
          "always",
          "event",
          "one-wire-rgb-5050",
          "05.01.01.01.22.60.00.00",
          "05.01.01.01.22.60.00",
          "west",
          "-west",
          "two words");

  @ParameterizedTest
  @MethodSource("keys")
  void theReaderTakesTheSameSingleValuesAsTheValidator(Key<?> key) throws IOException {
    if (!(key.takes() instanceof Takes.Single<?> takes)) {
      return;
    }
    ObjectNode alone = new ObjectMapper().createObjectNode();
    alone.set("$defs", PUBLISHED.get("$defs"));
    alone.set("properties", LayoutSchema.property(key));
    Schema validator = VALIDATORS.getSchema(alone);
    for (String text : TEXTS) {
      JsonNode value = new YAMLMapper().readTree(key.name() + ": " + text);
      assertThat(validator.validate(value).isEmpty())
          .as("%s: %s", key, text)
          .isEqualTo(takes.accepts(text));
    }
  }

  static Stream<Path> layoutsThatResolve() {
    return Case.pages(Path.of("src/test/resources/cases/layout")).stream()
        .filter(p -> errors(Case.of(p)).isEmpty());
  }

  @ParameterizedTest
  @MethodSource("layoutsThatResolve")
  void whatResolvesIsValid(Path page) {
    Case input = Case.of(page);
    assertThat(faults(input.files().get(input.root()))).isEmpty();
  }

  @ParameterizedTest
  @ValueSource(strings = {"yard", "brackwater", "terminus"})
  void theExamplesAreValid(String example) throws IOException {
    assertThat(faults(Files.readString(Path.of("../examples", example, "layout.yaml")))).isEmpty();
  }

  @ParameterizedTest
  @ValueSource(
      strings = {
        "kinds: {a: {froms: x}}",
        "kinds: {a: {by: telegraph}}",
        "kinds: {a: {address: 2049}}",
        "kinds: {a: {addresses: [7, 7]}}",
        "kinds: {a: {addresses: []}}",
        "kinds: {a: {heads: []}}",
        "kinds: {a: {heads: [[x]]}}",
        "kinds: {a: {values: {x: x}}}",
        "buses: {a: {speaks: dcc, topics: x}}",
        "buses: {a: {speaks: morse}}",
        "buses: {a: {}}",
        "buses: [a]",
        "scale: QQ",
        "scale: [HO]",
        "leds: {rgb: {order: XYZ}}",
        "leds: {rgb: {family: xyz}}",
        "leds: {rgb: {measured: {red: {x: 0.7, y: 0.3}}}}",
        "leds: {rgb: {colours: {red: [256, 0, 0]}}}",
        "kinds: {a: {mast: 0}}",
        "kinds: {a: {mast: [5, high]}}",
        "kinds: {a: {mast: []}}",
        "eyes: [sharp]",
        "eyes: [protan, protan]",
        "accept: {check: a, of: [b], because: c}",
        "accept: [{check: a, of: [], because: c}]",
        "accept: [{check: a, of: [b]}]",
        "viewing: 0",
        "lens: 0",
        "prices: {head: {searchlight: cheap}}",
        "kinds: {a: {lens: 1001}}",
        "controllers: {a: {flash: 1, ram: 1}}",
        "controllers: {-a: {flash: 1, ram: 1, chains: {}}}",
        "controllers: {a: {flash: many, ram: 1, chains: {}}}",
        "supplies: {bench: {volts: 5}}",
        "controllers: {a: {flash: 1, ram: 1, chains: {m: {cable: {awg: 9, metres: 2}, signals: [{name: W}]}}}}",
        "controllers: {a: {flash: 1, ram: 1, chains: {m: {feeds: [-1], signals: [{name: W}]}}}}",
        "controllers: {a: {flash: 1, ram: 1, chains: {m: {signals: []}}}}",
        "controllers: {a: {flash: 1, ram: 1, chains: {m: {signals: [W]}}}}",
        "controllers: {a: {flash: 1, ram: 1, chains: {m: {signals: [{name: W, form: one-head,"
            + " heads: [{type: searchlight, by: topic}]}]}}}}",
        "controllers: {a: {flash: 1, ram: 1, chains: {m: {signals: [{kind: x}]}}}}",
        "controllers: {a: {flash: 1, ram: 1, chains: {m: {signals: [{gap: 1, name: x}]}}}}"
      })
  void whatTheValidatorRefusesTheReaderRefusesToo(String part) {
    String rest = part.startsWith("controllers") ? "" : "controllers: {}\n";
    String layout = "layout: A\nrulebook: b.aspects\n" + rest + part + "\n";
    assertThat(faults(layout)).isNotEmpty();
    assertThat(
            LayoutResolver.resolve(
                    "layout.yaml",
                    path -> new SourceFile(path, path.endsWith(".yaml") ? layout : SMALLEST_BOOK))
                .diagnostics())
        .filteredOn(d -> d.primary().span().file().name().equals("layout.yaml"))
        .extracting(Diagnostic::severity)
        .contains(Severity.ERROR);
  }

  private static final String SMALLEST_BOOK =
      """
      rulebook "Test" edition 1
      speeds in mph { normal 60 }
      colours { red }
      head searchlight { lamp main shows red }
      form one-head { top }
      aspect "Stop" { number 0  allows stop  on one-head show red }
      """;

  private static List<Diagnostic> errors(Case input) {
    return LayoutResolver.resolve(input.root(), input.reader()).diagnostics().stream()
        .filter(d -> d.severity() == Severity.ERROR)
        .toList();
  }

  private static List<com.networknt.schema.Error> faults(String layout) {
    try {
      return VALIDATOR.validate(new YAMLMapper().readTree(layout));
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  private static void inStep(Path file, String text) throws IOException {
    if (Boolean.getBoolean("doublet.update") && System.getenv("CI") == null) {
      Files.writeString(file, text);
    }
    assertThat(Files.readString(file)).isEqualTo(text);
  }

  private static JsonNode json(String text) {
    try {
      return new ObjectMapper().readTree(text);
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }
}
