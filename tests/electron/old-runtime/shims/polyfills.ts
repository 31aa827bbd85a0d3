// Functions of the language that Chromium 83 and Node 12 lack.
import 'core-js/stable';
