coatwright today examples/desk.json --day tomorrow
