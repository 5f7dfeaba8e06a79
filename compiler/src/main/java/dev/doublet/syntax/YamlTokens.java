package dev.doublet.syntax;

import java.util.function.Consumer;
import org.yaml.snakeyaml.LoaderOptions;
import org.yaml.snakeyaml.error.YAMLException;
import org.yaml.snakeyaml.parser.ParserImpl;
import org.yaml.snakeyaml.reader.StreamReader;
import org.yaml.snakeyaml.scanner.Scanner;
import org.yaml.snakeyaml.scanner.ScannerImpl;
import org.yaml.snakeyaml.tokens.Token;

/** The tokens that the library splits a YAML text into, in order. */
final class YamlTokens {
  private YamlTokens() {}

  /**
   * Splits a text, and parses what comes of it.
   *
   * @throws YAMLException when it is not YAML
   */
  static void parse(String text, Consumer<Token> taker) {
    ParserImpl parser = new ParserImpl(new Tap(scanner(text), taker));
    while (parser.peekEvent() != null) {
      parser.getEvent();
    }
  }

  /**
   * Only splits it: a parser makes of equal tokens the same.
   *
   * @throws YAMLException when it cannot be split
   */
  static void split(String text, Consumer<Token> taker) {
    Scanner scanner = scanner(text);
    while (scanner.checkToken()) {
      taker.accept(scanner.getToken());
    }
  }

  private static Scanner scanner(String text) {
    LoaderOptions options = new LoaderOptions();
    options.setCodePointLimit(YamlParse.MOST_CHARACTERS);
    return new ScannerImpl(new StreamReader(text), options);
  }

  /** Shows each token that the parser takes. */
  private record Tap(Scanner scanner, Consumer<Token> taker) implements Scanner {
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
      taker.accept(token);
      return token;
    }

    @Override
    public void resetDocumentIndex() {
      scanner.resetDocumentIndex();
    }
  }
}
