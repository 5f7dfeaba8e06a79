package dev.doublet.layout;

import java.util.Collections;
import java.util.SortedMap;
import java.util.TreeMap;

/**
 * What parts cost, each in the same currency; 0 when not said.
 *
 * @param currency as the layout writes it; may be empty
 * @param led one LED
 * @param plate one plate
 * @param metre one metre of cable
 * @param heads one head, by make
 */
public record Prices(
    String currency, double led, double plate, double metre, SortedMap<String, Double> heads) {
  /** Copies the map. */
  public Prices {
    heads = Collections.unmodifiableSortedMap(new TreeMap<>(heads));
  }
}
