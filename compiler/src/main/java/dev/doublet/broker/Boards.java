package dev.doublet.broker;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.Collection;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.concurrent.CompletableFuture;
import java.util.concurrent.ConcurrentHashMap;
import java.util.concurrent.ExecutionException;
import java.util.concurrent.TimeUnit;
import java.util.concurrent.TimeoutException;
import java.util.function.Predicate;
import org.eclipse.paho.client.mqttv3.IMqttDeliveryToken;
import org.eclipse.paho.client.mqttv3.IMqttToken;
import org.eclipse.paho.client.mqttv3.MqttAsyncClient;
import org.eclipse.paho.client.mqttv3.MqttCallback;
import org.eclipse.paho.client.mqttv3.MqttException;
import org.eclipse.paho.client.mqttv3.MqttMessage;

/**
 * The boards of some names at a broker. What they say of themselves is followed from the beginning,
 * and so are the tables that the broker keeps for them, where it lets this user read those; nothing
 * is published but what {@link #send} is told to.
 */
public final class Boards implements AutoCloseable {
  private static final int QUALITY = 1;
  private static final int REFUSED = 0x80;
  private static final String STATE = "/state";
  private static final String TABLE = "/table";

  private final MqttAsyncClient client;
  private final Map<String, BoardState> states = new ConcurrentHashMap<>();
  private final Map<String, String> kept = new ConcurrentHashMap<>();
  private final List<Wait> waits = new ArrayList<>();
  private final Set<String> read = new HashSet<>();
  private final Map<Keeping, CompletableFuture<Void>> keepings = new ConcurrentHashMap<>();

  /** A table, by its checksum, that a broker is to keep for a board. */
  private record Keeping(String board, String sum) {}

  /** What somebody waits for. */
  private record Wait(
      String board, Predicate<BoardState> enough, CompletableFuture<BoardState> answer) {}

  /** A broker that could not be joined, or does not do what was asked; with a sentence on it. */
  public static final class Trouble extends Exception {
    private static final long serialVersionUID = 1L;

    Trouble(String sentence, Throwable cause) {
      super(sentence, cause);
    }
  }

  private Boards(BrokerPlace place) throws MqttException {
    client = BrokerClient.of(place);
  }

  /** Joins a broker, and asks it for what the boards of these names say. */
  public static Boards join(BrokerPlace place, Collection<String> names) throws Trouble {
    try {
      Boards boards = new Boards(place);
      try {
        boards.connect(place, List.copyOf(names));
        return boards;
      } catch (MqttException | Trouble e) {
        boards.close();
        throw e;
      }
    } catch (MqttException e) {
      String words = "broker " + place.uri() + " is not joined: " + BrokerClient.words(e);
      throw new Trouble(words, e);
    }
  }

  private void connect(BrokerPlace place, List<String> names) throws MqttException, Trouble {
    client.setCallback(new Arrivals(Set.copyOf(names)));
    client.connect(place.options()).waitForCompletion(2L * BrokerPlace.MILLIS_TO_ANSWER);
    for (String name : names) {
      // Tables first: a broker keeps the order, so what it keeps is known when the board is.
      if (isRead(name + TABLE)) {
        read.add(name);
      }
      if (!isRead(name + STATE)) {
        throw new Trouble("broker " + place.uri() + " lets nobody of this name read " + name, null);
      }
    }
  }

  private boolean isRead(String topic) throws MqttException {
    IMqttToken asked = client.subscribe(topic, QUALITY);
    asked.waitForCompletion(BrokerPlace.MILLIS_TO_ANSWER);
    return Arrays.stream(asked.getGrantedQos()).noneMatch(q -> q == REFUSED);
  }

  /** What a board said last; empty when it never did. */
  public Optional<BoardState> state(String board) {
    return Optional.ofNullable(states.get(board));
  }

  /** The checksum of the table that the broker keeps for a board; empty when none is known. */
  public Optional<String> kept(String board) {
    return Optional.ofNullable(kept.get(board));
  }

  /** Waits until every board has said something, or for so long. */
  public void hear(Collection<String> boards, int millis) throws InterruptedException {
    within(boards.stream().map(board -> await(board, said -> true, true)).toList(), millis);
  }

  /**
   * Sends each board its table, as a retained message, which the broker keeps for one that is not
   * there; then waits until it says that it does, where that may be read, and until all boards that
   * are there have decided about theirs, or for so long. Returns what those said that decided, when
   * they did: somebody else may send them another at once.
   */
  public Map<TableOffer, BoardState> send(Collection<TableOffer> offers, int millis)
      throws Trouble, InterruptedException {
    Map<TableOffer, CompletableFuture<BoardState>> answers = new LinkedHashMap<>();
    for (TableOffer offer : offers) {
      if (state(offer.controller()).filter(BoardState::isThere).isPresent()) {
        answers.put(offer, await(offer.controller(), offer::isDecidedBy, false));
      } else if (read.contains(offer.controller())) {
        keepings.put(new Keeping(offer.controller(), offer.sum()), new CompletableFuture<>());
      }
      try {
        String topic = offer.controller() + TABLE;
        client
            .publish(topic, offer.table(), QUALITY, true)
            .waitForCompletion(BrokerPlace.MILLIS_TO_ANSWER);
      } catch (MqttException e) {
        String words = "the broker did not take the table for " + offer.controller();
        throw new Trouble(words + ": " + BrokerClient.words(e), e);
      }
    }
    within(List.copyOf(keepings.values()), BrokerPlace.MILLIS_TO_ANSWER);
    within(answers.values(), millis);
    Map<TableOffer, BoardState> decided = new LinkedHashMap<>();
    answers.forEach(
        (offer, answer) -> {
          BoardState said = answer.getNow(null);
          if (said != null) {
            decided.put(offer, said);
          }
        });
    return decided;
  }

  /** The next thing that a board says which is enough; with {@code earlier}, or said already. */
  private CompletableFuture<BoardState> await(
      String board, Predicate<BoardState> enough, boolean earlier) {
    Wait wait = new Wait(board, enough, new CompletableFuture<>());
    synchronized (waits) {
      waits.add(wait);
      if (earlier) {
        state(board).filter(enough).ifPresent(wait.answer()::complete);
      }
    }
    return wait.answer();
  }

  /** Waits for answers, or for so long; nobody waits for them any longer. */
  private void within(Collection<? extends CompletableFuture<?>> answers, int millis)
      throws InterruptedException {
    try {
      CompletableFuture.allOf(answers.toArray(CompletableFuture<?>[]::new))
          .get(millis, TimeUnit.MILLISECONDS);
    } catch (TimeoutException e) {
      // Who asks for the states sees who has not answered.
    } catch (ExecutionException e) {
      throw new IllegalStateException(e);
    } finally {
      keepings.values().removeAll(answers);
      synchronized (waits) {
        waits.removeIf(wait -> answers.contains(wait.answer()));
      }
    }
  }

  @Override
  public void close() {
    BrokerClient.end(client);
  }

  /** What comes from the broker, on one thread. */
  private final class Arrivals implements MqttCallback {
    private final Set<String> names;

    Arrivals(Set<String> names) {
      this.names = names;
    }

    @Override
    public void messageArrived(String topic, MqttMessage message) {
      int slash = topic.lastIndexOf('/');
      String board = topic.substring(0, Math.max(0, slash));
      if (names.contains(board) && topic.endsWith(TABLE)) {
        Keeping keeping = new Keeping(board, Sums.of(message.getPayload()));
        kept.put(board, keeping.sum());
        CompletableFuture<Void> awaited = keepings.get(keeping);
        if (awaited != null) {
          awaited.complete(null);
        }
      }
      if (!names.contains(board) || !topic.endsWith(STATE)) {
        return;
      }
      BoardState said = BoardState.of(message.getPayload());
      synchronized (waits) {
        states.put(board, said);
        for (Wait wait : waits) {
          if (wait.board().equals(board) && wait.enough().test(said)) {
            wait.answer().complete(said);
          }
        }
      }
    }

    @Override
    public void connectionLost(Throwable cause) {
      // Boards that have not answered by then are told of as such.
    }

    @Override
    public void deliveryComplete(IMqttDeliveryToken token) {
      // Who publishes waits for it.
    }
  }
}
