package dev.doublet.cli;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** A layout's page that is served, and follows its files. */
class ShowTest {
  @TempDir private Path folder;

  @Test
  void the_page_is_served_to_this_machine_alone_under_an_address_nobody_guesses()
      throws IOException, InterruptedException {
    Yard.in(folder);
    try (Showing one = Showing.of(folder);
        Showing other = Showing.of(folder)) {
      assertThat(one.printed()).matches("http://127\\.0\\.0\\.1:[0-9]+/[0-9a-f]{32}/\n");
      assertThat(one.address().getPath()).isNotEqualTo(other.address().getPath());
      assertThat(one.page())
          .contains("Signals of Coalpit Yard", "connect-src 'self'", "data-version=\"1\"");
      assertThat(one.end()).isZero();
      assertThat(other.end()).isZero();
    }
  }

  /** DNS rebinding and requests across sites: RFC 9110, part 7.2, and the Fetch standard, 3.2. */
  @Test
  void strangers_are_not_let_in() throws IOException, InterruptedException {
    Yard.in(folder);
    try (Showing it = Showing.of(folder)) {
      String path = it.address().getPath();
      String host = "Host: " + it.host();
      String own = "Origin: http://" + it.host();
      int port = it.address().getPort();

      assertThat(it.status("GET", path, host)).isEqualTo(200);
      assertThat(it.status("GET", path, "Host: localhost:" + port)).isEqualTo(200);
      assertThat(it.status("GET", path, host, own)).isEqualTo(200);

      for (String way :
          List.of(
              "/",
              path.substring(0, path.length() - 1),
              path + "page",
              path + "../",
              path + "?x",
              "/" + "0".repeat(32) + "/",
              "/favicon.ico",
              path + path.substring(1),
              path + "layout.yaml",
              path + "%2e%2e/layout.yaml")) {
        assertThat(it.status("GET", way, host)).as(way).isEqualTo(404);
      }
      // Newer versions of Java refuse by themselves what names no one machine.
      assertThat(it.status("GET", "/" + path, host)).isIn(400, 404);
      for (String wrong :
          List.of(
              "Host: evil.example",
              "Host: evil.example:" + port,
              "Host: 127.0.0.1",
              "Host: 127.0.0.1:" + (port + 1),
              "Host: 0.0.0.0:" + port)) {
        assertThat(it.status("GET", path, wrong)).as(wrong).isEqualTo(403);
      }
      for (String wrong : List.of("Host:", "X-Forwarded-Host: " + it.host())) {
        assertThat(it.status("GET", path, wrong)).as(wrong).isIn(400, 403);
      }
      assertThat(it.status("GET", path, host, "Host: evil.example")).isIn(400, 403);
      assertThat(it.status("GET", "http://evil.example" + path, "Host: evil.example"))
          .isIn(400, 403);
      for (String wrong :
          List.of(
              "Origin: http://evil.example",
              "Origin: null",
              "Origin: https://" + it.host(),
              "Origin: http://localhost:" + (port + 1),
              own + ".evil.example")) {
        assertThat(it.status("GET", path + "events", host, wrong)).as(wrong).isEqualTo(403);
        assertThat(it.status("POST", path + "publish", host, wrong)).as(wrong).isEqualTo(403);
      }
      assertThat(it.status("POST", path + "publish", host)).as("no origin").isEqualTo(403);
      for (String method : List.of("POST", "HEAD", "PUT", "DELETE", "OPTIONS", "TRACE", "X")) {
        assertThat(it.status(method, path, host, own)).as(method).isEqualTo(405);
      }
      assertThat(it.status("GET", path + "publish", host, own)).isEqualTo(405);
    }
  }

  @Test
  void bad_requests_are_refused_in_a_word_and_do_no_harm()
      throws IOException, InterruptedException {
    Yard.in(folder);
    try (Showing it = Showing.of(folder)) {
      assertThat(it.publish("x".repeat(100_000)).statusCode()).isEqualTo(413);
      assertThat(it.publish("").statusCode()).isEqualTo(400);
      assertThat(it.publish("no-base64! x").statusCode()).isEqualTo(400);
      assertThat(it.publish("YQ== YQ== YQ==").statusCode()).isEqualTo(400);
      assertThat(it.publish("YQ== YQ==").statusCode()).isEqualTo(409);
      assertThat(it.publish("YQ== YQ==").body()).isEqualTo("There is no broker here.\n");
      for (String bytes :
          List.of(
              "\r\n\r\n",
              "GET\r\n\r\n",
              "GET \u0000 HTTP/1.1\r\n\r\n",
              "\u0016\u0003\u0001\r\n\r\n",
              "GET / HTTP/1.1\r\n\r\n",
              "GET /%zz HTTP/1.1\r\nHost: " + it.host() + "\r\n\r\n",
              "POST "
                  + it.address().getPath()
                  + "publish HTTP/1.1\r\nHost: "
                  + it.host()
                  + "\r\nContent-Length: -5\r\n\r\n")) {
        assertThat(it.raw(bytes))
            .as(dev.doublet.source.Visible.line(bytes))
            .doesNotContain("200 OK", "\tat ");
      }
      assertThat(it.page()).contains("Coalpit Yard");
      assertThat(it.complained()).isEmpty();
    }
  }

  @Test
  void what_is_saved_is_on_the_page_soon() throws IOException, InterruptedException {
    Yard.in(folder);
    try (Showing it = Showing.of(folder)) {
      Showing.Listening page = it.listen();
      assertThat(page.next("layout").data()).isEqualTo("1");
      assertThat(page.next("sound").data()).isEqualTo("1");
      List<Long> millis = new ArrayList<>();
      for (int i = 2; i < 13; i++) {
        String title = "Coalpit Yard " + i;
        long saved = System.nanoTime();
        Files.writeString(
            folder.resolve("layout.yaml"), Yard.LAYOUT.replace("Coalpit Yard", title));
        // A file is at times seen while it is half written, and then again.
        while (!it.page().contains("Signals of " + title)) {
          page.next("sound");
        }
        millis.add((System.nanoTime() - saved) / 1_000_000);
      }
      millis.sort(null);
      assertThat(millis.get(millis.size() / 2)).as("median of %s ms", millis).isLessThan(300);
    }
  }

  @Test
  void an_error_is_told_beside_the_last_good_picture() throws IOException, InterruptedException {
    Yard.in(folder);
    try (Showing it = Showing.of(folder)) {
      Showing.Listening page = it.listen();
      page.next("sound");
      String good = it.page();
      replace("book.aspects", Yard.BOOK.replace("show yellow", "show yelow"));
      assertThat(page.next("broken").data())
          .startsWith("2\nf0l7 error book.aspects:7:75: ")
          .contains("yelow");
      assertThat(it.text(2))
          .contains("<li class=\"found\" id=\"f0l7\"", "show yelow")
          .contains("<h2>book.aspects</h2>");
      assertThat(it.page()).isEqualTo(good);
      Files.delete(folder.resolve("book.aspects"));
      assertThat(page.next("broken").data()).contains("book.aspects");
      assertThat(it.listen().next("broken").data()).contains("book.aspects");
      replace("book.aspects", Yard.BOOK);
      assertThat(page.next("sound").data()).matches("[0-9]+");
      assertThat(it.text(4)).contains("<p>Nothing.</p>");
      assertThat(it.page()).contains("data-version=\"2\"");
    }
  }

  @Test
  void a_page_that_comes_back_hears_what_it_missed() throws IOException, InterruptedException {
    Yard.in(folder);
    try (Showing it = Showing.of(folder)) {
      Showing.Event layout;
      Showing.Event sound;
      try (Showing.Listening page = it.listen()) {
        layout = page.next("layout");
        sound = page.next("sound");
      }
      assertThat(it.listen("Last-Event-ID", layout.id()).next("sound")).isEqualTo(sound);
      Showing.Listening back = it.listen("Last-Event-ID", sound.id());
      replace("layout.yaml", Yard.LAYOUT.replace("Coalpit", "Clay"));
      assertThat(back.next("layout").data()).isEqualTo("2");
      assertThat(it.listen("Last-Event-ID", "x").next("layout").data()).isEqualTo("2");
    }
  }

  @Test
  void pages_beyond_the_sixteenth_send_the_first_away() throws IOException, InterruptedException {
    Yard.in(folder);
    try (Showing it = Showing.of(folder)) {
      Showing.Listening first = it.listen();
      first.next("sound");
      for (int i = 0; i < 15; i++) {
        it.listen().next("sound");
      }
      Showing.Listening last = it.listen();
      last.next("sound");
      assertThat(first.isEnded()).isTrue();
      replace("layout.yaml", Yard.LAYOUT.replace("Coalpit", "Clay"));
      assertThat(last.next("layout").data()).isEqualTo("2");
      it.end();
      assertThat(last.isEnded()).isTrue();
    }
  }

  @Test
  void what_has_errors_is_not_shown_to_begin_with() throws IOException {
    Session session = Yard.in(folder);
    Files.writeString(
        folder.resolve("layout.yaml"), Yard.LAYOUT.replace("[searchlight]", "[search]"));
    assertThat(session.run("show", "layout.yaml")).isEqualTo(1);
    assertThat(session.out()).contains("search");
    assertThat(session.err()).isEqualTo("doublet: there is nothing to show yet\n");
    assertThat(session.run("show", "layout.yaml", "--port", "70000")).isEqualTo(2);
    assertThat(session.err())
        .isEqualTo("doublet: --port takes a whole number from 1 to 65535, not \"70000\"\n");
  }

  @Test
  void a_port_that_is_taken_is_named() throws IOException, InterruptedException {
    Session session = Yard.in(folder);
    try (Showing it = Showing.of(folder)) {
      String port = Integer.toString(it.address().getPort());
      assertThat(session.run("show", "layout.yaml", "--port", port)).isEqualTo(2);
      assertThat(session.err())
          .isEqualTo(
              "doublet: 127.0.0.1 port "
                  + port
                  + ": nothing can be served there: another program has that port, or this machine"
                  + " no such address; without --port any port that is free is taken\n");
    }
  }

  /** As editors save: beside, and then in its place. */
  private void replace(String file, String text) throws IOException {
    Path beside = folder.resolve(file + ".new");
    Files.writeString(beside, text);
    // Any other move deletes first, and whoever follows the file may see that.
    Files.move(beside, folder.resolve(file), java.nio.file.StandardCopyOption.ATOMIC_MOVE);
  }
}
