package pack

// IsBare is isBare for tests from outside.
var IsBare = isBare
