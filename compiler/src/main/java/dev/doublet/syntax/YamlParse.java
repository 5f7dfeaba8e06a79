package dev.doublet.syntax;

import com.fasterxml.jackson.core.JsonToken;
import com.fasterxml.jackson.dataformat.yaml.YAMLFactory;
import com.fasterxml.jackson.dataformat.yaml.YAMLParser;
import dev.doublet.diagnostic.Datum;
import dev.doublet.diagnostic.Diagnostic;
import dev.doublet.diagnostic.Tier;
import dev.doublet.source.SourceFile;
import dev.doublet.source.Span;
import java.io.IOException;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.stream.Collectors;
import org.yaml.snakeyaml.LoaderOptions;

/** One reading of a draft, up to its end or its first fault. */
final class YamlParse {
  /** How deep keys and lists may nest. */
  static final int DEEPEST = 32;

  /** How long a text may be; its reader in {@code cli} takes no longer ones. */
  static final int MOST_CHARACTERS = 1 << 26;

  private final SourceFile file;
  private final YamlDraft draft;
  private final YAMLParser parser;
  private final YamlPlaces places;
  private final List<Diagnostic> diagnostics = new ArrayList<>();
  private final List<Span> marked = new ArrayList<>();
  private Span lastText;
  private int depth;

  private YamlParse(YamlDraft draft, YAMLParser parser) {
    this.file = draft.file();
    this.draft = draft;
    this.parser = parser;
    this.places = new YamlPlaces(draft.text());
  }

  /**
   * What a whole draft says.
   *
   * @param root its value, where what was blanked is unread
   * @param diagnostics mistakes that do not keep it from being read
   */
  record Read(YamlNode root, List<Diagnostic> diagnostics) {}

  /**
   * Reads a draft.
   *
   * @throws YamlFault where it stops being YAML
   */
  static Read read(YamlDraft draft) throws YamlFault {
    if (draft.isBlank()) {
      return new Read(new YamlNode.Unread(draft.file().span(0, draft.text().length())), List.of());
    }
    try (YAMLParser parser = factory().createParser(draft.text())) {
      return new YamlParse(draft, parser).root();
    } catch (IOException fault) {
      throw YamlFaults.explain(draft.file(), fault);
    }
  }

  private static YAMLFactory factory() {
    LoaderOptions options = new LoaderOptions();
    options.setCodePointLimit(MOST_CHARACTERS);
    return YAMLFactory.builder().loaderOptions(options).build();
  }

  private Read root() throws IOException, YamlFault {
    YamlNode root;
    try {
      if (parser.nextToken() == null) {
        throw YamlFaults.empty(file);
      }
      root = value();
      if (parser.nextToken() != null) {
        Span second = tokenSpan();
        diagnostics.add(YamlFaults.secondDocument(second));
        root = YamlLosses.put(root, file.span(second.start(), file.text().length()));
      }
    } catch (IOException fault) {
      throw YamlFaults.openQuote(lastText, YamlFaults.explain(file, fault));
    }
    for (Span lost : draft.lost()) {
      root = YamlLosses.put(root, lost);
    }
    Map<Boolean, List<Span>> kinds =
        marked.stream().collect(Collectors.groupingBy(span -> span.text().startsWith("!")));
    kinds.values().forEach(spans -> diagnostics.add(YamlFaults.marks(spans)));
    return new Read(root, diagnostics);
  }

  /** The value whose first token is the present one. */
  private YamlNode value() throws IOException, YamlFault {
    Span span = tokenSpan();
    boolean isMarked = isMarked(span);
    JsonToken token = parser.currentToken();
    if (!token.isScalarValue() && ++depth > DEEPEST) {
      throw YamlFaults.tooDeep(span, DEEPEST);
    }
    YamlNode node;
    if (token.isScalarValue()) {
      Span blanked = draft.values().get(span.start());
      node = blanked == null ? text(span) : new YamlNode.Unread(blanked);
    } else {
      node = token == JsonToken.START_ARRAY ? sequence(span) : mapping(span);
      depth--;
    }
    return isMarked ? new YamlNode.Unread(node.span()) : node;
  }

  /** A value; one that no line can show was told of, and is not read. */
  private YamlNode text(Span span) throws IOException {
    YamlNode.Scalar scalar = scalar(span);
    Optional<Diagnostic> fault = unprintable(scalar);
    fault.ifPresent(diagnostics::add);
    return fault.isEmpty() ? scalar : new YamlNode.Unread(span);
  }

  private static Optional<Diagnostic> unprintable(YamlNode.Scalar scalar) {
    return scalar.quoted()
        ? YamlFaults.unprintable(scalar.span(), scalar.text())
        : Optional.empty();
  }

  private YamlNode.Scalar scalar(Span span) throws IOException {
    char first = span.start() < span.end() ? draft.text().charAt(span.start()) : ' ';
    boolean block = "|>".indexOf(first) >= 0;
    String text = block ? parser.getText().stripTrailing() : parser.getText();
    boolean quoted = block || "\"'".indexOf(first) >= 0;
    if (quoted) {
      lastText = span;
    }
    return new YamlNode.Scalar(text, quoted, span);
  }

  private YamlNode sequence(Span open) throws IOException, YamlFault {
    List<YamlNode> items = new ArrayList<>();
    while (parser.nextToken() != JsonToken.END_ARRAY) {
      items.add(value());
    }
    return new YamlNode.Sequence(items, whole(open, items.isEmpty() ? null : last(items).span()));
  }

  private YamlNode mapping(Span open) throws IOException, YamlFault {
    List<YamlNode.Entry> entries = new ArrayList<>();
    List<Span> unread = new ArrayList<>();
    Map<String, YamlNode.Scalar> known = new HashMap<>();
    Span last = null;
    while (parser.nextToken() != JsonToken.END_OBJECT) {
      Span place = tokenSpan();
      boolean isMarked = isMarked(place);
      YamlNode.Scalar key = scalar(place);
      // Told of, and read all the same: much may hang on a name.
      unprintable(key).ifPresent(diagnostics::add);
      parser.nextToken();
      YamlNode value = value();
      last = value.span();
      if (isMarked) {
        unread.add(place.to(last));
        continue;
      }
      YamlNode.Scalar first = known.putIfAbsent(key.text(), key);
      if (first == null) {
        entries.add(new YamlNode.Entry(key, value));
      } else {
        diagnostics.add(duplicate(key, first));
      }
    }
    return new YamlNode.Mapping(entries, unread, whole(open, last));
  }

  private static Diagnostic duplicate(YamlNode.Scalar key, YamlNode.Scalar first) {
    return Diagnostic.error(
            "duplicate-key",
            Tier.STRUCTURE,
            key.span(),
            "\"{key}\" is said twice",
            Datum.of("key", key.text()))
        .label("said again")
        .related(first.span(), "said first")
        .because("only one of the two could hold.")
        .help("keep one of the two.");
  }

  /**
   * The place of a list or mapping that has just ended. One in brackets ends with them; one in
   * lines of its own ends with its last value, not with the line where the parser noticed.
   */
  private Span whole(Span open, Span last) {
    boolean bracketed = open.start() < open.end();
    if (bracketed) {
      return open.to(tokenSpan());
    }
    return last == null ? open : open.to(last);
  }

  /** True for a name of a value, a reference to one and a type, which are told of and not read. */
  private boolean isMarked(Span span) {
    boolean isMarked =
        span.start() < span.end() && "&*!".indexOf(draft.text().charAt(span.start())) >= 0;
    if (isMarked) {
      marked.add(span);
    }
    return isMarked;
  }

  private Span tokenSpan() {
    int start = places.index(parser.currentTokenLocation().getCharOffset());
    int end = places.index(parser.currentLocation().getCharOffset());
    return file.span(start, Math.max(start, end));
  }

  private static <T> T last(List<T> list) {
    return list.get(list.size() - 1);
  }
}
