package dev.doublet.colour;

/** The side of a straight line where {@code a x + b y <= c}. */
record Line(double a, double b, double c) {}
