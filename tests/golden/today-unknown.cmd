coatwright today examples/staircase.json --person Leoni
