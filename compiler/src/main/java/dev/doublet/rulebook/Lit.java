package dev.doublet.rulebook;

/**
 * One lamp showing one colour.
 *
 * @param lamp index of the lamp in its head
 * @param colour the colour's name
 */
public record Lit(int lamp, String colour) {}
