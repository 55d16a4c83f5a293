"""Simulations that hold the program to what it promises; short forms run with the tests, long ones by hand."""
