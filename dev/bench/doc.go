// Package bench times the network solver beside others in one run.
//
// Main entry: rivals.py, which makes the networks, solves them with numpy and
// scipy, runs the benchmark of this package on the same files, compares the
// answers and prints the ratios. In: a folder of network files and answers, by
// the environment variable RIVALS_DIR. Out: times, and a failure where answers
// differ by more than 1e-6. It holds no code for the program itself.
package bench
