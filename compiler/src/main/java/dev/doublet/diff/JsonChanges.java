package dev.doublet.diff;

import com.fasterxml.jackson.core.JsonGenerator;
import dev.doublet.report.JsonFindings;
import dev.doublet.rulebook.Display;
import java.io.IOException;
import java.util.List;
import java.util.Optional;

/** Changes as JSON, after {@code changes.schema.json} in the jar. */
public final class JsonChanges {
  /** Grows when a reader of the format before it would misread what is written. */
  static final int FORMAT = 1;

  private final JsonGenerator json;

  private JsonChanges(JsonGenerator json) {
    this.json = json;
  }

  /** The whole document. */
  public static String of(Changes changes) {
    return JsonFindings.write(json -> new JsonChanges(json).document(changes));
  }

  private void document(Changes changes) throws IOException {
    json.writeStartObject();
    json.writeNumberField("format", FORMAT);
    words("files", changes.files());
    json.writeBooleanField("partial", changes.isPartial());
    json.writeStringField("fingerprint", changes.fingerprint());
    json.writeObjectFieldStart("counts");
    for (Consequence consequence : Consequence.values()) {
      json.writeNumberField(consequence.word(), changes.of(consequence).size());
    }
    json.writeEndObject();
    json.writeArrayFieldStart("changes");
    for (Event event : changes.events()) {
      event(event);
    }
    json.writeEndArray();
    json.writeEndObject();
  }

  private void event(Event event) throws IOException {
    json.writeStartObject();
    json.writeStringField("name", event.sort().word());
    json.writeStringField("class", event.consequence().word());
    json.writeStringField("file", event.file());
    json.writeStringField("kind", event.subject().kind());
    words("names", event.subject().names());
    json.writeStringField("message", event.sentence());
    json.writeStringField("at", event.at());
    json.writeStringField("before", event.before());
    json.writeStringField("after", event.after());
    json.writeStringField("note", event.how());
    sight("seen-before", event.sightBefore());
    sight("seen-after", event.sightAfter());
    json.writeStringField("fingerprint", event.fingerprint());
    json.writeEndObject();
  }

  private void sight(String name, Optional<Sight> sight) throws IOException {
    if (sight.isPresent()) {
      json.writeObjectFieldStart(name);
      json.writeStringField("form", sight.get().form().name());
      words("plates", sight.get().plates());
      words("displays", sight.get().displays().stream().map(Display::words).toList());
      json.writeEndObject();
    }
  }

  private void words(String name, List<String> words) throws IOException {
    json.writeArrayFieldStart(name);
    for (String word : words) {
      json.writeString(word);
    }
    json.writeEndArray();
  }
}
