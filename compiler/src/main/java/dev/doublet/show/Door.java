package dev.doublet.show;

import com.sun.net.httpserver.HttpExchange;
import java.net.InetAddress;
import java.net.InetSocketAddress;
import java.nio.charset.StandardCharsets;
import java.security.MessageDigest;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.TreeSet;
import java.util.regex.Pattern;

/** Which requests are let in. */
final class Door {
  /** The ways of the page, and the one method that each takes. */
  private static final Map<String, String> WAYS =
      Map.of("", "GET", "events", "GET", "text", "GET", "publish", "POST");

  /** A number behind it makes a browser ask anew. */
  private static final Pattern TEXT = Pattern.compile("text[0-9]{1,9}");

  private final String token;

  Door(String token) {
    this.token = token;
  }

  /**
   * Why a request is refused.
   *
   * @param status the code of HTTP (RFC 9110, part 15)
   */
  record Refusal(int status, String words) {}

  /** Why a request is refused; empty when it is let in. */
  Optional<Refusal> refusal(HttpExchange request) {
    Set<String> hosts = hosts(request.getLocalAddress());
    List<String> host = request.getRequestHeaders().getOrDefault("Host", List.of());
    if (host.size() != 1 || !hosts.contains(host.get(0))) {
      return refused(403, "This page has another address.");
    }
    String way = way(request);
    if (!WAYS.containsKey(way)) {
      return refused(404, "There is nothing here. The whole address was printed at the start.");
    }
    if (!WAYS.get(way).equals(request.getRequestMethod())) {
      return refused(405, "This takes " + WAYS.get(way) + " only.");
    }
    List<String> origin = request.getRequestHeaders().getOrDefault("Origin", List.of());
    boolean own = origin.equals(List.of("http://" + host.get(0)));
    if (!own && !(origin.isEmpty() && WAYS.get(way).equals("GET"))) {
      return refused(403, "Another page may not ask this.");
    }
    return Optional.empty();
  }

  /** What is asked for, without the word that opens the door; "?" for what lies outside. */
  String way(HttpExchange request) {
    String path = String.valueOf(request.getRequestURI().getRawPath());
    String[] parts = path.split("/", -1);
    boolean opened =
        parts.length == 3
            && parts[0].isEmpty()
            && MessageDigest.isEqual(bytes(parts[1]), bytes(token))
            && request.getRequestURI().getRawQuery() == null;
    return !opened ? "?" : TEXT.matcher(parts[2]).matches() ? "text" : parts[2];
  }

  /** What a browser may call an address that it has connected to. */
  private static Set<String> hosts(InetSocketAddress connected) {
    InetAddress address = connected.getAddress();
    Set<String> hosts = new TreeSet<>();
    hosts.add(host(connected));
    if (address.isLoopbackAddress()) {
      hosts.add("localhost:" + connected.getPort());
    }
    return hosts;
  }

  /** An address with its port, as it stands in the address of a page (RFC 3986, part 3.2.2). */
  static String host(InetSocketAddress place) {
    String address = place.getAddress().getHostAddress();
    return (address.contains(":") ? "[" + address + "]" : address) + ":" + place.getPort();
  }

  private static byte[] bytes(String text) {
    return text.getBytes(StandardCharsets.UTF_8);
  }

  private static Optional<Refusal> refused(int status, String words) {
    return Optional.of(new Refusal(status, words));
  }
}
