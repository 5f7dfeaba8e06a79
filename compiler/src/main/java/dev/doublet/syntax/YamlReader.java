package dev.doublet.syntax;

import com.fasterxml.jackson.core.JsonToken;
import com.fasterxml.jackson.dataformat.yaml.YAMLFactory;
import com.fasterxml.jackson.dataformat.yaml.YAMLParser;
import dev.doublet.diagnostic.Diagnostic;
import dev.doublet.diagnostic.Outcome;
import dev.doublet.diagnostic.Tier;
import dev.doublet.source.SourceFile;
import dev.doublet.source.Span;
import java.io.IOException;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import org.yaml.snakeyaml.LoaderOptions;

/**
 * Reads YAML into nodes with exact places.
 *
 * <p>What a layout has no use for is refused: several documents in one file, names for values and
 * references to them (which can make a small text stand for a huge one), tags, keys that are not
 * plain words, nesting deeper than {@value #DEEPEST}, and lines longer than {@value #LONGEST_LINE}
 * characters.
 */
public final class YamlReader {
  private static final int DEEPEST = 32;
  private static final int MOST_CHARACTERS = 1 << 26;

  /** The parser takes time that grows with the square of a word's length. */
  private static final int LONGEST_LINE = 1_000_000;

  private final SourceFile file;
  private final YAMLParser parser;
  private final YamlPlaces places;
  private final List<Diagnostic> diagnostics = new ArrayList<>();
  private int depth;

  private YamlReader(SourceFile file, YAMLParser parser) {
    this.file = file;
    this.parser = parser;
    this.places = new YamlPlaces(file.text());
  }

  /**
   * Reads one text.
   *
   * @return the root and any {@code duplicate-key}; nothing but one {@code yaml-syntax}, {@code
   *     yaml-anchors} or {@code not-text} when it cannot be read
   */
  public static Outcome<YamlNode> read(SourceFile file) {
    int odd = YamlPlaces.firstOddCharacter(file.text());
    if (odd >= 0) {
      return Outcome.failed(List.of(YamlFaults.oddCharacter(file, odd)));
    }
    for (int line = 1; line <= file.lineCount(); line++) {
      int start = file.lineStart(line);
      int end = line < file.lineCount() ? file.lineStart(line + 1) : file.text().length();
      if (end - start > LONGEST_LINE) {
        return Outcome.failed(List.of(YamlFaults.longLine(file.span(start, start), LONGEST_LINE)));
      }
    }
    try (YAMLParser parser = factory().createParser(file.text())) {
      return new YamlReader(file, parser).root();
    } catch (Refused refused) {
      return Outcome.failed(List.of(refused.diagnostic));
    } catch (IOException fault) {
      return Outcome.failed(List.of(YamlFaults.explain(file, fault)));
    }
  }

  private static YAMLFactory factory() {
    LoaderOptions options = new LoaderOptions();
    options.setCodePointLimit(MOST_CHARACTERS);
    return YAMLFactory.builder().loaderOptions(options).build();
  }

  private Outcome<YamlNode> root() throws IOException, Refused {
    if (parser.nextToken() == null) {
      throw new Refused(YamlFaults.empty(file));
    }
    YamlNode root = value();
    if (parser.nextToken() != null) {
      throw new Refused(YamlFaults.secondDocument(tokenSpan()));
    }
    return Outcome.of(root, diagnostics);
  }

  /** The value whose first token is the present one. */
  private YamlNode value() throws IOException, Refused {
    Span span = tokenSpan();
    refuseAnchors(span);
    JsonToken token = parser.currentToken();
    if (token.isScalarValue()) {
      return scalar(span);
    }
    if (++depth > DEEPEST) {
      throw new Refused(YamlFaults.tooDeep(span, DEEPEST));
    }
    YamlNode node = token == JsonToken.START_ARRAY ? sequence(span) : mapping(span);
    depth--;
    return node;
  }

  private YamlNode.Scalar scalar(Span span) throws IOException {
    char first = span.start() < span.end() ? file.text().charAt(span.start()) : ' ';
    boolean block = "|>".indexOf(first) >= 0;
    String text = block ? parser.getText().stripTrailing() : parser.getText();
    boolean quoted = block || "\"'".indexOf(first) >= 0;
    if (quoted) {
      YamlFaults.unprintable(span, text).ifPresent(diagnostics::add);
    }
    return new YamlNode.Scalar(text, quoted, span);
  }

  private YamlNode sequence(Span open) throws IOException, Refused {
    List<YamlNode> items = new ArrayList<>();
    while (parser.nextToken() != JsonToken.END_ARRAY) {
      items.add(value());
    }
    return new YamlNode.Sequence(items, whole(open, items.isEmpty() ? null : last(items).span()));
  }

  private YamlNode mapping(Span open) throws IOException, Refused {
    List<YamlNode.Entry> entries = new ArrayList<>();
    Map<String, YamlNode.Scalar> known = new HashMap<>();
    while (parser.nextToken() != JsonToken.END_OBJECT) {
      Span place = tokenSpan();
      refuseAnchors(place);
      YamlNode.Scalar key = scalar(place);
      parser.nextToken();
      YamlNode value = value();
      YamlNode.Scalar first = known.putIfAbsent(key.text(), key);
      if (first == null) {
        entries.add(new YamlNode.Entry(key, value));
      } else {
        diagnostics.add(
            Diagnostic.error(
                    "duplicate-key",
                    Tier.STRUCTURE,
                    key.span(),
                    "\"" + key.text() + "\" is said twice")
                .label("said again")
                .related(first.span(), "said first")
                .because("only one of the two could hold.")
                .help("keep one of the two."));
      }
    }
    Span lastSpan = entries.isEmpty() ? null : last(entries).value().span();
    return new YamlNode.Mapping(entries, whole(open, lastSpan));
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

  private void refuseAnchors(Span span) throws Refused {
    if (span.start() < span.end() && "&*!".indexOf(file.text().charAt(span.start())) >= 0) {
      throw new Refused(YamlFaults.anchor(span));
    }
  }

  private Span tokenSpan() {
    int start = places.index(parser.currentTokenLocation().getCharOffset());
    int end = places.index(parser.currentLocation().getCharOffset());
    return file.span(start, Math.max(start, end));
  }

  private static <T> T last(List<T> list) {
    return list.get(list.size() - 1);
  }

  /** Carries the one diagnostic of a text that is refused. */
  private static final class Refused extends Exception {
    private static final long serialVersionUID = 1L;
    private final transient Diagnostic diagnostic;

    Refused(Diagnostic diagnostic) {
      super(diagnostic.message());
      this.diagnostic = diagnostic;
    }
  }
}
