coatwright area examples/desk.json --explain top
coatwright area examples/desk.json --explain 'light tile' --units us
coatwright area examples/desk.json --explain tpo
coatwright area examples/desk.json --explain top --json
