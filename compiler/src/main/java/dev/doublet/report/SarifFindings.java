package dev.doublet.report;

import com.fasterxml.jackson.core.JsonGenerator;
import dev.doublet.diagnostic.Diagnostic;
import dev.doublet.diagnostic.Fact;
import dev.doublet.diagnostic.Fix;
import dev.doublet.diagnostic.Label;
import dev.doublet.diagnostic.Severity;
import dev.doublet.source.Position;
import dev.doublet.source.Span;
import java.io.IOException;
import java.net.URI;
import java.net.URISyntaxException;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import java.util.function.UnaryOperator;
import java.util.stream.Collectors;

/**
 * Findings as a log of the Static Analysis Results Interchange Format, version 2.1.0 (OASIS), in
 * which each name of a finding is a rule with its page as help.
 */
public final class SarifFindings {
  /**
   * What paths are relative to (3.14.14), by the name that forges take for the top of a checkout.
   */
  private static final String TOP = "%SRCROOT%";

  private final JsonGenerator json;
  private final List<String> rules;
  private final UnaryOperator<String> page;
  private final UnaryOperator<String> place;

  private SarifFindings(
      JsonGenerator json,
      List<String> rules,
      UnaryOperator<String> page,
      UnaryOperator<String> place) {
    this.json = json;
    this.rules = rules;
    this.page = page;
    this.place = place;
  }

  /**
   * The whole log.
   *
   * @param version of Doublet
   * @param page the page of a finding, by its name; empty when it has none
   * @param place the path of a file from the top of its checkout, by its name
   */
  public static String of(
      Findings findings, String version, UnaryOperator<String> page, UnaryOperator<String> place) {
    List<String> rules =
        findings.all().stream().map(f -> f.said().name()).distinct().sorted().toList();
    return JsonFindings.write(
        json -> new SarifFindings(json, rules, page, place).document(findings, version));
  }

  private void document(Findings findings, String version) throws IOException {
    json.writeStartObject();
    json.writeStringField("$schema", "https://json.schemastore.org/sarif-2.1.0.json");
    json.writeStringField("version", "2.1.0");
    json.writeArrayFieldStart("runs");
    json.writeStartObject();
    json.writeObjectFieldStart("tool");
    json.writeObjectFieldStart("driver");
    json.writeStringField("name", "doublet");
    json.writeStringField("version", version);
    json.writeArrayFieldStart("rules");
    for (String rule : rules) {
      rule(rule);
    }
    json.writeEndArray();
    json.writeEndObject();
    json.writeEndObject();
    json.writeObjectFieldStart("originalUriBaseIds");
    json.writeObjectFieldStart(TOP);
    text("description", "the top of the checkout, or the folder of the run where there is none");
    json.writeEndObject();
    json.writeEndObject();
    json.writeStringField("columnKind", "unicodeCodePoints");
    json.writeArrayFieldStart("results");
    for (Findings.Finding finding : findings.all()) {
      result(finding);
    }
    json.writeEndArray();
    json.writeObjectFieldStart("properties");
    json.writeNumberField("skippedChecks", findings.skipped());
    json.writeEndObject();
    json.writeEndObject();
    json.writeEndArray();
    json.writeEndObject();
  }

  private void rule(String name) throws IOException {
    json.writeStartObject();
    json.writeStringField("id", name);
    String text = page.apply(name);
    if (!text.isEmpty()) {
      String summary = text.lines().skip(1).filter(l -> !l.isBlank()).findFirst().orElse(name);
      text("shortDescription", summary);
      json.writeObjectFieldStart("help");
      json.writeStringField("text", text);
      json.writeStringField("markdown", text);
      json.writeEndObject();
    }
    json.writeEndObject();
  }

  private void result(Findings.Finding finding) throws IOException {
    Diagnostic said = finding.said();
    json.writeStartObject();
    json.writeStringField("ruleId", said.name());
    json.writeNumberField("ruleIndex", rules.indexOf(said.name()));
    json.writeStringField(
        "level", said.severity() == Severity.NOTE ? "note" : said.severity().word());
    text("message", message(said));
    json.writeArrayFieldStart("locations");
    location(said.primary(), -1);
    json.writeEndArray();
    if (!said.related().isEmpty()) {
      json.writeArrayFieldStart("relatedLocations");
      for (int i = 0; i < said.related().size(); i++) {
        location(said.related().get(i), i);
      }
      json.writeEndArray();
    }
    json.writeObjectFieldStart("partialFingerprints");
    json.writeStringField("doublet/v1", finding.fingerprint());
    json.writeEndObject();
    if (!said.fixes().isEmpty()) {
      json.writeArrayFieldStart("fixes");
      for (Fix fix : said.fixes()) {
        fix(fix);
      }
      json.writeEndArray();
    }
    json.writeObjectFieldStart("properties");
    JsonFindings.told(json, said);
    json.writeEndObject();
    json.writeEndObject();
  }

  /** What is wrong, the facts, why it matters and what to do, a line each. */
  private static String message(Diagnostic said) {
    List<String> lines = new ArrayList<>(List.of(said.message()));
    for (Fact fact : said.facts()) {
      lines.add(fact.name() + ": " + fact.value());
    }
    if (!said.why().isEmpty()) {
      lines.add("Why: " + TextRendering.why(said));
    }
    if (!said.help().isEmpty()) {
      lines.add("Do: " + said.help());
    }
    return String.join("\n", lines);
  }

  private void location(Label label, int id) throws IOException {
    json.writeStartObject();
    if (id >= 0) {
      json.writeNumberField("id", id);
    }
    json.writeObjectFieldStart("physicalLocation");
    artifact(label.span());
    region("region", label.span());
    json.writeEndObject();
    if (!label.text().isEmpty()) {
      text("message", label.text());
    }
    json.writeEndObject();
  }

  private void fix(Fix fix) throws IOException {
    json.writeStartObject();
    text("description", fix.title());
    json.writeArrayFieldStart("artifactChanges");
    Map<String, List<Fix.Edit>> byFile =
        fix.edits().stream()
            .collect(
                Collectors.groupingBy(
                    e -> e.span().file().name(), TreeMap::new, Collectors.toList()));
    for (List<Fix.Edit> edits : byFile.values()) {
      json.writeStartObject();
      artifact(edits.get(0).span());
      json.writeArrayFieldStart("replacements");
      for (Fix.Edit edit : edits) {
        json.writeStartObject();
        region("deletedRegion", edit.span());
        text("insertedContent", edit.replacement());
        json.writeEndObject();
      }
      json.writeEndArray();
      json.writeEndObject();
    }
    json.writeEndArray();
    json.writeEndObject();
  }

  private void artifact(Span span) throws IOException {
    json.writeObjectFieldStart("artifactLocation");
    json.writeStringField("uri", uri(place.apply(span.file().name())));
    json.writeStringField("uriBaseId", TOP);
    json.writeEndObject();
  }

  private void region(String name, Span span) throws IOException {
    Position from = span.from();
    Position to = span.file().position(span.end());
    json.writeObjectFieldStart(name);
    json.writeNumberField("startLine", from.line());
    json.writeNumberField("startColumn", from.column());
    json.writeNumberField("endLine", to.line());
    json.writeNumberField("endColumn", to.column());
    json.writeEndObject();
  }

  private void text(String name, String text) throws IOException {
    json.writeObjectFieldStart(name);
    json.writeStringField("text", text);
    json.writeEndObject();
  }

  /** A path as a reference: what no reference may hold is escaped. */
  private static String uri(String path) {
    try {
      // A colon in the first part would make it a scheme.
      String safe = path.split("/", 2)[0].contains(":") ? "./" + path : path;
      return new URI(null, null, safe, null).toASCIIString();
    } catch (URISyntaxException e) {
      throw new IllegalStateException("every path can be escaped", e);
    }
  }
}
