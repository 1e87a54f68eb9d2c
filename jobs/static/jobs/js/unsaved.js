// A page that says why a form was not saved; whatever way leads back to the form, it is drafted.
import { keepSent } from "./typing.js";

keepSent();
