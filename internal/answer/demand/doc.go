// Package demand says which tools run together.
//
// [Of] takes a job and its model and gives an [Answer]: the exact distribution
// of how many run at once and of how much they take, from each tool's share of
// the working time, and the [Set] list to put to the network: the job's named
// sets, and for each tool the worst set that is still plausible.
//
// Tools are independent, but for groups that never or always run together.
// Sources: Poisson-binomial convolution; the rule "least number exceeded less
// than 1 % of the time" after Hunter 1940 (NBS BMS65). It solves no network:
// who gets what pressure is package flow.
package demand
