coatwright plan examples/desk.json --effort much
