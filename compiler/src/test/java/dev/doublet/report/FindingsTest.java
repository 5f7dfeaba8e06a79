package dev.doublet.report;

import static org.assertj.core.api.Assertions.assertThat;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import com.networknt.schema.Schema;
import com.networknt.schema.SchemaRegistry;
import com.networknt.schema.SpecificationVersion;
import dev.doublet.diagnostic.Datum;
import dev.doublet.diagnostic.Diagnostic;
import dev.doublet.diagnostic.Fix;
import dev.doublet.diagnostic.Label;
import dev.doublet.diagnostic.Severity;
import dev.doublet.diagnostic.Tier;
import dev.doublet.golden.Case;
import dev.doublet.golden.Run;
import dev.doublet.grammar.AspectsLexer;
import dev.doublet.report.Findings.Finding;
import dev.doublet.source.SourceFile;
import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Set;
import java.util.regex.Pattern;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;

/** What programs are told is valid, whole and stays the same when lines move. */
class FindingsTest {
  private static final Path PAGES = Path.of("src/main/java/dev/doublet/check");
  private static final ObjectMapper JSON = new ObjectMapper();
  private static final Schema OURS =
      schema("/dev/doublet/findings.schema.json", SpecificationVersion.DRAFT_2020_12);

  /** As the OASIS committee published it (SARIF 2.1.0, errata 1). */
  private static final Schema SARIF =
      schema("/schema/sarif-schema-2.1.0.json", SpecificationVersion.DRAFT_7);

  private static final Pattern SPOKEN_OF =
      Pattern.compile("\"([^\"]*)\"|(?<![\\w.-])(\\d[\\d,.]*\\d|\\d)(?![\\w-])");

  /** What only shows how something is written, and what is cited. */
  private static final Pattern EXAMPLE =
      Pattern.compile("(as in:?|such as|, or:) [^;]*|CIE 1931|MOROP NEM 672");

  /** The rule that most reasons stand on. */
  private static final Pattern CITED = Pattern.compile("49 CFR [\\d.]*\\d(\\(\\w+\\))*");

  /** The words of the language and of layouts, which advice may name. */
  private static final Set<String> LANGUAGE = language();

  static Stream<Path> pages() {
    return Case.pages(PAGES).stream();
  }

  @ParameterizedTest
  @MethodSource("pages")
  void every_bad_sample_makes_a_valid_document_of_each_format(Path page) throws IOException {
    Findings findings = of(Case.section(page, "Bad"));
    assertThat(findings.all()).isNotEmpty();
    assertThat(OURS.validate(JSON.readTree(JsonFindings.of(findings)))).isEmpty();
    String sarif =
        SarifFindings.of(findings, "1.0", name -> "# " + name + "\n\nA page.\n", path -> path);
    assertThat(SARIF.validate(JSON.readTree(sarif))).isEmpty();
    assertThat(sarif.chars()).allMatch(c -> c < 0x7F);
  }

  @Test
  void changes_that_would_mend_something_are_part_of_valid_documents() throws IOException {
    int fixes = 0;
    for (Path page : Case.pages(Path.of("src/test/resources/cases"))) {
      Case input = Case.of(page);
      if (input.files().isEmpty()) {
        continue;
      }
      Findings findings = of(input);
      String json = JsonFindings.of(findings);
      assertThat(OURS.validate(JSON.readTree(json))).as(page.toString()).isEmpty();
      JsonNode sarif = JSON.readTree(SarifFindings.of(findings, "1.0", name -> "", path -> path));
      assertThat(SARIF.validate(sarif)).as(page.toString()).isEmpty();
      for (JsonNode result : sarif.at("/runs/0/results")) {
        fixes += result.path("fixes").size();
      }
    }
    assertThat(fixes).isGreaterThan(100);
  }

  @Test
  void the_validators_tell_wrong_documents() throws IOException {
    assertThat(OURS.validate(JSON.readTree("{\"format\": 1}"))).isNotEmpty();
    assertThat(SARIF.validate(JSON.readTree("{\"version\": \"2.1.0\"}"))).isNotEmpty();
  }

  @ParameterizedTest
  @MethodSource("pages")
  void the_names_and_numbers_of_a_message_are_data_too(Path page) {
    namesAndNumbersAreData(Case.section(page, "Bad"));
  }

  static Stream<Path> cases() {
    return Case.pages(Path.of("src/test/resources/cases")).stream()
        .filter(page -> !Case.of(page).files().isEmpty());
  }

  @ParameterizedTest
  @MethodSource("cases")
  void so_are_those_of_every_case(Path page) {
    namesAndNumbersAreData(Case.of(page));
  }

  private static void namesAndNumbersAreData(Case input) {
    for (Diagnostic said : Run.compile(input).diagnostics()) {
      List<Label> places = new ArrayList<>(said.related());
      places.add(said.primary());
      List<String> known = new ArrayList<>(said.about());
      places.forEach(place -> known.add(place.span().text()));
      said.data().forEach(d -> known.addAll(values(d)));
      assertThat(spokenOf(said.message())).allMatch(word -> isKnown(word, known), said.message());
      places.forEach(
          place -> assertThat(advised(place.text())).allMatch(word -> isKnown(word, known)));
      assertThat(CITED.matcher(said.why()).results().map(r -> r.group()))
          .allMatch(said.sources()::contains, said.why());
      assertThat(advised(said.help())).allMatch(word -> isKnown(word, known), said.help());
    }
  }

  private static boolean isKnown(String word, List<String> known) {
    // A name that is longer than anybody reads is told by its beginning.
    String told = word.endsWith("…") ? word.substring(0, word.length() - 1) : word;
    return known.stream().anyMatch(k -> k.contains(told));
  }

  /** Names and numbers. */
  private static List<String> spokenOf(String prose) {
    return SPOKEN_OF
        .matcher(prose)
        .results()
        .map(r -> r.group(1) == null ? r.group(2) : r.group(1))
        .toList();
  }

  /** The same of advice, without examples and what stands in the language for every finding. */
  private static List<String> advised(String prose) {
    return spokenOf(EXAMPLE.matcher(prose).replaceAll("")).stream()
        .filter(word -> !LANGUAGE.containsAll(List.of(word.split("(: ?| )"))))
        .toList();
  }

  private static Set<String> language() {
    Set<String> words = new HashSet<>(Set.of("…", "#", "/", ">", "&", "*", "!"));
    for (int i = 1; i <= AspectsLexer.VOCABULARY.getMaxTokenType(); i++) {
      String literal = AspectsLexer.VOCABULARY.getLiteralName(i);
      words.add(literal == null ? "" : literal.substring(1, literal.length() - 1));
    }
    JsonNode layout = json("/dev/doublet/layout.schema.json");
    layout.findValues("properties").forEach(p -> p.fieldNames().forEachRemaining(words::add));
    layout.findValues("const").forEach(word -> words.add(word.asText()));
    layout.findValues("enum").forEach(all -> all.forEach(word -> words.add(word.asText())));
    return words;
  }

  private static JsonNode json(String resource) {
    try (InputStream in = FindingsTest.class.getResourceAsStream(resource)) {
      return JSON.readTree(in);
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  static Stream<Path> mistakes() {
    return Stream.of("language", "layout")
        .flatMap(room -> Case.pages(Path.of("src/test/resources/cases", room)).stream());
  }

  /** Who reads the text alone is told of every change that a program is offered. */
  @ParameterizedTest
  @MethodSource("mistakes")
  void what_a_fix_would_write_is_said_in_words(Path page) {
    for (Diagnostic said : Run.compile(Case.of(page)).diagnostics()) {
      String words = said.message() + " " + said.help();
      for (Fix fix : said.fixes()) {
        if (fix.edits().get(0).replacement().isBlank()) {
          assertThat(words).containsAnyOf("remove", "delete", "take", "space");
        } else {
          // What joins it to the text around it is no word.
          String written =
              fix.edits().get(0).replacement().replaceFirst("^[,\\s]+", "").stripTrailing();
          for (String line : written.lines().toList()) {
            assertThat(words.replace("\"", ""))
                .as(fix.title())
                .contains(line.replace("\"", "").strip());
          }
        }
      }
    }
  }

  @ParameterizedTest
  @MethodSource("pages")
  void a_fingerprint_survives_moved_lines(Path page) {
    Case bad = Case.section(page, "Bad");
    List<String> before = prints(of(bad));
    bad.files().replaceAll((name, text) -> "# one line\n\n" + text);
    assertThat(prints(of(bad))).isEqualTo(before).doesNotHaveDuplicates();
  }

  @Test
  void an_annotation_is_one_line_whatever_it_says() {
    SourceFile file = new SourceFile("a,b:c%.aspects", "one\ntwo\n");
    Diagnostic said =
        Diagnostic.error("syntax", Tier.SYNTAX, file.span(0, 3), "100 % wrong,\nquite").help("do");
    assertThat(AnnotationLines.of(Findings.of(List.of(), List.of(said), 0, true), path -> path))
        .isEqualTo(
            "::error file=a%2Cb%3Ac%25.aspects,line=1,endLine=1,col=1,endColumn=4,title=syntax"
                + "::100 %25 wrong,%0Aquite%0ADo: do\n");
  }

  @Test
  void of_many_annotations_the_last_one_counts_the_rest() {
    SourceFile file = new SourceFile("book.aspects", "x".repeat(40));
    List<Diagnostic> many = new ArrayList<>();
    for (int i = 0; i < 40; i++) {
      many.add(
          Diagnostic.of("syntax", Tier.SYNTAX, Severity.WARNING, file.span(i, i + 1), "wrong"));
    }
    assertThat(AnnotationLines.of(Findings.of(List.of(), many, 0, true), path -> path).lines())
        .hasSize(10)
        .last()
        .isEqualTo("::warning title=doublet::31 more of this severity");
  }

  private static List<String> values(Datum datum) {
    if (datum instanceof Datum.Texts words) {
      // How many there are, and how many more than the first, is told by the list itself.
      List<String> values = new ArrayList<>(words.values());
      values.add(String.valueOf(words.values().size()));
      values.add(String.valueOf(words.values().size() - 1));
      return values;
    }
    if (datum instanceof Datum.Number number) {
      return List.of(number.value().toPlainString());
    }
    return ((Datum.Numbers) datum).values().stream().map(String::valueOf).toList();
  }

  private static Findings of(Case input) {
    List<String> files = List.copyOf(input.files().keySet());
    return Findings.of(files, Run.compile(input).diagnostics(), 0, true);
  }

  private static List<String> prints(Findings findings) {
    return findings.all().stream().map(Finding::fingerprint).toList();
  }

  private static Schema schema(String resource, SpecificationVersion version) {
    return SchemaRegistry.withDefaultDialect(version).getSchema(json(resource));
  }
}
