/** Whether aspects hand a train on to one another. */
package dev.doublet.check.sequence;
