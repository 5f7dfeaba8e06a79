package dev.doublet.syntax;

import java.util.ArrayList;
import java.util.List;
import java.util.function.Consumer;
import org.yaml.snakeyaml.LoaderOptions;
import org.yaml.snakeyaml.error.YAMLException;
import org.yaml.snakeyaml.events.Event;
import org.yaml.snakeyaml.events.ScalarEvent;
import org.yaml.snakeyaml.parser.ParserImpl;
import org.yaml.snakeyaml.reader.StreamReader;
import org.yaml.snakeyaml.scanner.Scanner;
import org.yaml.snakeyaml.scanner.ScannerImpl;
import org.yaml.snakeyaml.tokens.Token;

/** What the library's parser makes of a YAML text: its lists, keys and values, without places. */
final class YamlEvents {
  private YamlEvents() {}

  /**
   * Parses a text.
   *
   * @param tokens takes each token that the text is split into, in order
   * @return equal for texts that are read alike
   * @throws YAMLException when it is not YAML
   */
  static List<Object> of(String text, Consumer<Token> tokens) {
    LoaderOptions options = new LoaderOptions();
    options.setCodePointLimit(YamlParse.MOST_CHARACTERS);
    ScannerImpl scanner = new ScannerImpl(new StreamReader(text), options);
    ParserImpl parser = new ParserImpl(new Tap(scanner, tokens));
    List<Object> events = new ArrayList<>();
    while (parser.peekEvent() != null) {
      Event event = parser.getEvent();
      if (event instanceof ScalarEvent scalar) {
        events.add(scalar.getScalarStyle());
        events.add(scalar.getValue());
      } else {
        events.add(event.getEventId());
      }
    }
    return events;
  }

  /** Shows each token that the parser takes. */
  private record Tap(Scanner scanner, Consumer<Token> tokens) implements Scanner {
    @Override
    public boolean checkToken(Token.ID... choices) {
      return scanner.checkToken(choices);
    }

    @Override
    public boolean checkToken(Token.ID choice) {
      return scanner.checkToken(choice);
    }

    @Override
    public Token peekToken() {
      return scanner.peekToken();
    }

    @Override
    public Token getToken() {
      Token token = scanner.getToken();
      tokens.accept(token);
      return token;
    }

    @Override
    public void resetDocumentIndex() {
      scanner.resetDocumentIndex();
    }
  }
}
