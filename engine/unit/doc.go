// Package unit reads and prints physical quantities the way people in the
// compressed-air trade type them, and keeps them apart as Go types.
//
// In: text such as "3/4in", "12 ft 6 in", "90 psig", "18 cfm", "68 F" and the
// Kind of quantity wanted. Out: one float64 in SI, or a *ParseError that says
// what was read, what is accepted and which unit is nearest.
// Main types: Kind (what a number is), FlowReading (a flow with its reference
// conditions), System (how figures are printed), Length and its sisters.
// Sources: conversion factors are the exact definitions of nist-sp811.
// It does not convert between reference conditions of air: that takes the
// density of humid air and belongs to package air.
package unit
