coatwright woods
