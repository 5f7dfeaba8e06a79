package dev.doublet.cli;

import dev.doublet.broker.BrokerPlace;
import java.io.IOException;
import java.io.InputStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.FileSystemException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.security.GeneralSecurityException;
import java.util.Optional;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import javax.net.ssl.SSLSocketFactory;
import picocli.CommandLine.Option;

/** Which broker is joined, and how. A password is never an option: other users see those. */
final class BrokerOptions {
  static final String PASSWORD = "DOUBLET_BROKER_PASSWORD";

  private static final int MOST_OF_A_PASSWORD = 1 << 16;
  private static final int USUAL_PORT = 1883;
  private static final int USUAL_PORT_OF_TLS = 8883;
  private static final Pattern PLACE =
      Pattern.compile("([A-Za-z0-9._-]+|\\[[0-9A-Fa-f:.]+\\])(?::([0-9]{1,5}))?");

  @Option(
      names = "--broker",
      paramLabel = "HOST[:PORT]",
      description = "the MQTT broker that is joined")
  private String broker = "";

  @Option(names = "--user", paramLabel = "NAME", description = "the user's name at the broker")
  private String user = "";

  @Option(
      names = "--password-file",
      paramLabel = "FILE",
      description =
          "a file whose first line is the password; without, the variable " + PASSWORD + " is it")
  private String passwordFile = "";

  @Option(names = "--tls", description = "speaks TLS with the broker")
  private boolean tls;

  @Option(
      names = "--ca",
      paramLabel = "FILE",
      description = "the certificate of who signed the broker's, where Java does not know it")
  private String authority = "";

  /** What is wrong with the options, as a sentence, or empty. */
  Optional<String> mistake() {
    if (!isAsked()) {
      boolean alone = tls || !(user + passwordFile + authority).isEmpty();
      return alone
          ? Optional.of("--user, --password-file, --tls and --ca go with --broker")
          : Optional.empty();
    }
    if (!PLACE.matcher(broker).matches() || port() < 1 || port() > 65_535) {
      return Optional.of("--broker takes HOST or HOST:PORT, not \"" + broker + "\"");
    }
    if (!authority.isEmpty() && !tls) {
      return Optional.of("--ca goes with --tls");
    }
    return user.isEmpty() && !passwordFile.isEmpty()
        ? Optional.of("--password-file goes with --user")
        : Optional.empty();
  }

  boolean isAsked() {
    return !broker.isEmpty();
  }

  /** What to know before the broker is joined, as a sentence, or empty. */
  Optional<String> caution() {
    return isAsked() && !user.isEmpty() && !tls
        ? Optional.of("the password goes to the broker for all on the way to read, without --tls")
        : Optional.empty();
  }

  /** The broker, once what the options name was read. */
  BrokerPlace place(Path folder) throws IOException {
    String host = place().group(1);
    return new BrokerPlace(host, port(), tls, authorities(folder), user, password(folder));
  }

  private Matcher place() {
    Matcher place = PLACE.matcher(broker);
    place.matches();
    return place;
  }

  private int port() {
    String port = place().group(2);
    return port == null ? tls ? USUAL_PORT_OF_TLS : USUAL_PORT : Integer.parseInt(port);
  }

  private String password(Path folder) throws IOException {
    if (passwordFile.isEmpty()) {
      String password = System.getenv(PASSWORD);
      return password == null ? "" : password;
    }
    try (InputStream file = Files.newInputStream(folder.resolve(passwordFile))) {
      String text = new String(file.readNBytes(MOST_OF_A_PASSWORD), StandardCharsets.UTF_8);
      return text.lines().findFirst().orElse("");
    }
  }

  private Optional<SSLSocketFactory> authorities(Path folder) throws IOException {
    if (authority.isEmpty()) {
      return Optional.empty();
    }
    try (InputStream certificates = Files.newInputStream(folder.resolve(authority))) {
      return Optional.of(BrokerPlace.trust(certificates));
    } catch (GeneralSecurityException e) {
      throw new FileSystemException(authority, null, "this is no certificate");
    }
  }
}
