package dev.doublet.report;

import com.fasterxml.jackson.core.JsonFactory;
import com.fasterxml.jackson.core.JsonGenerator;
import com.fasterxml.jackson.core.json.JsonWriteFeature;
import com.fasterxml.jackson.core.util.DefaultIndenter;
import com.fasterxml.jackson.core.util.DefaultPrettyPrinter;
import dev.doublet.diagnostic.Datum;
import dev.doublet.diagnostic.Diagnostic;
import dev.doublet.diagnostic.Fact;
import dev.doublet.diagnostic.Fix;
import dev.doublet.diagnostic.Label;
import dev.doublet.diagnostic.Severity;
import dev.doublet.diagnostic.Tier;
import dev.doublet.source.Position;
import dev.doublet.source.Span;
import java.io.IOException;
import java.io.StringWriter;
import java.io.UncheckedIOException;
import java.util.List;
import java.util.Locale;

/** Findings as JSON, after {@code findings.schema.json}, which lies beside this class. */
public final class JsonFindings {
  /** Grows when a reader of the format before it would misread what is written. */
  static final int FORMAT = 1;

  private final JsonGenerator json;

  private JsonFindings(JsonGenerator json) {
    this.json = json;
  }

  /** The whole document. */
  public static String of(Findings findings) {
    return write(json -> new JsonFindings(json).document(findings));
  }

  /** What writes JSON. */
  public interface Writing {
    void to(JsonGenerator json) throws IOException;
  }

  /** A document with two blanks a level, ending in a line end. */
  public static String write(Writing writing) {
    StringWriter text = new StringWriter();
    DefaultIndenter indenter = new DefaultIndenter("  ", "\n");
    DefaultPrettyPrinter printer =
        new DefaultPrettyPrinter().withObjectIndenter(indenter).withArrayIndenter(indenter);
    // Hidden characters are data here, and must neither act on a terminal nor be changed for it.
    JsonFactory ascii = JsonFactory.builder().enable(JsonWriteFeature.ESCAPE_NON_ASCII).build();
    try (JsonGenerator json = ascii.createGenerator(text)) {
      json.setPrettyPrinter(printer);
      writing.to(json);
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
    return text.append('\n').toString();
  }

  private void document(Findings findings) throws IOException {
    json.writeStartObject();
    json.writeNumberField("format", FORMAT);
    words("files", findings.files());
    json.writeNumberField("skipped", findings.skipped());
    json.writeObjectFieldStart("counts");
    for (Severity severity : Severity.values()) {
      long count = findings.all().stream().filter(f -> f.said().severity() == severity).count();
      json.writeNumberField(severity.word(), count);
    }
    json.writeEndObject();
    json.writeArrayFieldStart("findings");
    for (Findings.Finding finding : findings.all()) {
      finding(finding);
    }
    json.writeEndArray();
    json.writeEndObject();
  }

  private void finding(Findings.Finding finding) throws IOException {
    Diagnostic said = finding.said();
    json.writeStartObject();
    json.writeStringField("name", said.name());
    json.writeStringField("severity", said.severity().word());
    json.writeStringField("tier", word(said.tier()));
    json.writeStringField("message", said.message());
    json.writeObjectFieldStart("at");
    place(said.primary());
    json.writeArrayFieldStart("related");
    for (Label label : said.related()) {
      json.writeStartObject();
      place(label);
    }
    json.writeEndArray();
    told(said);
    json.writeArrayFieldStart("fixes");
    for (Fix fix : said.fixes()) {
      json.writeStartObject();
      json.writeStringField("title", fix.title());
      json.writeBooleanField("safe", fix.safe());
      json.writeArrayFieldStart("edits");
      for (Fix.Edit edit : fix.edits()) {
        json.writeStartObject();
        json.writeObjectFieldStart("at");
        place(new Label(edit.span(), ""));
        json.writeStringField("replacement", edit.replacement());
        json.writeEndObject();
      }
      json.writeEndArray();
      json.writeEndObject();
    }
    json.writeEndArray();
    json.writeStringField("fingerprint", finding.fingerprint());
    json.writeEndObject();
  }

  /** What is told of a finding beside its message and its places. */
  static void told(JsonGenerator json, Diagnostic said) throws IOException {
    new JsonFindings(json).told(said);
  }

  private void told(Diagnostic said) throws IOException {
    words("about", said.about());
    json.writeArrayFieldStart("facts");
    for (Fact fact : said.facts()) {
      json.writeStartObject();
      json.writeStringField("name", fact.name());
      json.writeStringField("text", fact.value());
      json.writeEndObject();
    }
    json.writeEndArray();
    json.writeArrayFieldStart("data");
    for (Datum datum : said.data()) {
      datum(datum);
    }
    json.writeEndArray();
    json.writeStringField("why", said.why());
    words("sources", said.sources());
    json.writeStringField("help", said.help());
  }

  private void datum(Datum datum) throws IOException {
    json.writeStartObject();
    json.writeStringField("name", datum.name());
    if (datum instanceof Datum.Texts words) {
      words("words", words.values());
    } else if (datum instanceof Datum.Number number) {
      json.writeNumberField("number", number.value());
      json.writeStringField("unit", number.unit());
    } else if (datum instanceof Datum.Numbers numbers) {
      json.writeArrayFieldStart("numbers");
      for (int value : numbers.values()) {
        json.writeNumber(value);
      }
      json.writeEndArray();
    }
    json.writeEndObject();
  }

  /** Fills an object that was begun. */
  private void place(Label label) throws IOException {
    Span span = label.span();
    json.writeStringField("file", span.file().name());
    position("from", span.from());
    position("to", span.file().position(span.end()));
    json.writeStringField("text", span.text());
    json.writeStringField("label", label.text());
    json.writeEndObject();
  }

  private void position(String name, Position position) throws IOException {
    json.writeObjectFieldStart(name);
    json.writeNumberField("line", position.line());
    json.writeNumberField("column", position.column());
    json.writeEndObject();
  }

  private void words(String name, List<String> words) throws IOException {
    json.writeArrayFieldStart(name);
    for (String word : words) {
      json.writeString(word);
    }
    json.writeEndArray();
  }

  private static String word(Tier tier) {
    return tier.name().toLowerCase(Locale.ROOT);
  }
}
