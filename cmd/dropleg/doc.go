// Command dropleg takes a workshop, a compressor and tools to compressed air that
// works: on the command line, and in the browser of the same computer. All that
// it does stands in package cli.
package main
