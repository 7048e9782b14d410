export { NewRun as Run } from '../components/NewRun';
