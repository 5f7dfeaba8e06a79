package dev.doublet.show;

import dev.doublet.broker.BrokerClient;
import dev.doublet.broker.BrokerPlace;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.Base64;
import java.util.Collection;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.TreeSet;
import org.eclipse.paho.client.mqttv3.IMqttDeliveryToken;
import org.eclipse.paho.client.mqttv3.MqttAsyncClient;
import org.eclipse.paho.client.mqttv3.MqttCallback;
import org.eclipse.paho.client.mqttv3.MqttConnectOptions;
import org.eclipse.paho.client.mqttv3.MqttException;
import org.eclipse.paho.client.mqttv3.MqttMessage;

/**
 * A broker of MQTT 3.1.1 that is joined, and joined again whenever it is lost. It is asked for the
 * topics of the layout and for nothing else, by their names; what arrives on them is told in the
 * order in which it arrives. Nothing is published unless that was asked for, and then on those
 * topics only.
 */
public final class Broker implements AutoCloseable {
  private static final int MILLIS_BETWEEN_TRIES = 500;
  private static final int TOPICS_A_REQUEST = 100;
  private static final int MOST_IN_FLIGHT = 100;

  /** The most bytes of a topic and its payload, which is what the reader on a page takes. */
  private static final int MOST_BYTES = 512;

  /** Each message arrives at least once, and in order. */
  private static final int QUALITY = 1;

  private final BrokerPlace place;
  private final boolean publishes;
  private final Events events;
  private final Thread keeper = new Thread(this::keep, "broker");
  private final Set<String> followed = new TreeSet<>();
  private boolean told;
  private String said = "";
  private volatile Set<String> wanted = Set.of();
  private volatile MqttAsyncClient client;

  /**
   * A broker that is not joined yet.
   *
   * @param publishes true when a page may send
   * @param events where what arrives is told
   */
  public static Broker of(BrokerPlace place, boolean publishes, Events events) {
    try {
      return new Broker(place, publishes, events);
    } catch (MqttException e) {
      throw new IllegalArgumentException("no place of a broker: " + place.uri(), e);
    }
  }

  private Broker(BrokerPlace place, boolean publishes, Events events) throws MqttException {
    this.place = place;
    this.publishes = publishes;
    this.events = events;
    this.client = BrokerClient.of(place);
    keeper.setDaemon(true);
    tell("away", "Broker " + place.uri() + " is not joined yet.");
  }

  /** Follows these topics from now on; the first call joins the broker. */
  public void follow(Collection<String> topics) {
    wanted = Set.copyOf(topics);
    events.forget(matter -> matter.startsWith("/") && !wanted.contains(matter.substring(1)));
    if (keeper.getState() == Thread.State.NEW) {
      keeper.start();
    }
  }

  /** Publishes what a page sends; why it could not, as a sentence, or empty. */
  public Optional<String> publish(byte[] topic, byte[] payload) {
    String name = new String(topic, StandardCharsets.UTF_8);
    if (!publishes) {
      return Optional.of("Nothing is published: that was not asked for.");
    }
    if (!wanted.contains(name)) {
      return Optional.of("No signal of this layout listens to that topic, so it is not published.");
    }
    try {
      client.publish(name, payload, QUALITY, false).waitForCompletion(BrokerPlace.MILLIS_TO_ANSWER);
      return Optional.empty();
    } catch (MqttException e) {
      return Optional.of("The broker did not take it: " + BrokerClient.words(e) + ".");
    }
  }

  @Override
  public void close() {
    keeper.interrupt();
    BrokerClient.end(client);
  }

  private void keep() {
    try {
      while (true) {
        try {
          if (!client.isConnected()) {
            join();
          }
          askForTopics();
        } catch (MqttException e) {
          tell("away", "Broker " + place.uri() + " is not joined: " + BrokerClient.words(e) + ".");
        }
        Thread.sleep(MILLIS_BETWEEN_TRIES);
      }
    } catch (InterruptedException ended) {
      Thread.currentThread().interrupt();
    }
  }

  private void join() throws MqttException {
    BrokerClient.end(client);
    followed.clear();
    told = false;
    client = BrokerClient.of(place);
    client.setCallback(new Arrivals());
    MqttConnectOptions options = place.options();
    options.setMaxInflight(MOST_IN_FLIGHT);
    client.connect(options).waitForCompletion(2 * BrokerPlace.MILLIS_TO_ANSWER);
  }

  /** Asks for what is wanted and not yet followed, and leaves what is wanted no more. */
  private void askForTopics() throws MqttException {
    Set<String> topics = wanted;
    if (told && followed.equals(topics)) {
      return;
    }
    List<String> left = new ArrayList<>(followed);
    left.removeAll(topics);
    for (List<String> some : parts(left)) {
      client
          .unsubscribe(some.toArray(String[]::new))
          .waitForCompletion(BrokerPlace.MILLIS_TO_ANSWER);
      followed.removeAll(some);
    }
    List<String> more = new ArrayList<>(new TreeSet<>(topics));
    more.removeAll(followed);
    for (List<String> some : parts(more)) {
      int[] qualities = new int[some.size()];
      Arrays.fill(qualities, QUALITY);
      client
          .subscribe(some.toArray(String[]::new), qualities)
          .waitForCompletion(BrokerPlace.MILLIS_TO_ANSWER);
      followed.addAll(some);
    }
    told = true;
    tell(publishes ? "publishes" : "joined", "Broker " + place.uri() + " is joined.");
  }

  private static List<List<String>> parts(List<String> all) {
    List<List<String>> parts = new ArrayList<>();
    for (int from = 0; from < all.size(); from += TOPICS_A_REQUEST) {
      parts.add(all.subList(from, Math.min(all.size(), from + TOPICS_A_REQUEST)));
    }
    return parts;
  }

  /** Tells pages how it stands with the broker, once for each change. */
  private synchronized void tell(String state, String words) {
    String now = state + " " + words;
    if (!now.equals(said)) {
      said = now;
      events.tell("broker", "broker", now);
    }
  }

  /** What comes from the broker, on one thread. */
  private final class Arrivals implements MqttCallback {
    @Override
    public void messageArrived(String topic, MqttMessage message) {
      if (!wanted.contains(topic)) {
        return;
      }
      byte[] name = topic.getBytes(StandardCharsets.UTF_8);
      boolean fits = name.length + message.getPayload().length <= MOST_BYTES;
      String rest = " " + base64(name) + " " + (fits ? base64(message.getPayload()) : "");
      if (!fits) {
        events.tell("command", "/" + topic, "long" + rest);
      } else if (message.isRetained()) {
        events.tell("command", "/" + topic, "retained" + rest);
      } else {
        events.tell("command", "/" + topic, "live" + rest, "earlier" + rest);
      }
    }

    @Override
    public void connectionLost(Throwable cause) {
      tell("away", "Broker " + place.uri() + " was lost, and is sought.");
    }

    @Override
    public void deliveryComplete(IMqttDeliveryToken token) {
      // Who publishes waits for it.
    }

    private static String base64(byte[] bytes) {
      return Base64.getEncoder().encodeToString(bytes);
    }
  }
}
