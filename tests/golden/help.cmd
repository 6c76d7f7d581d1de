coatwright --help
coatwright plan --help
coatwright mix --help
